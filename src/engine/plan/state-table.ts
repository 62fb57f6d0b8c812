/**
 * Finds what is stored for a state: a belief (scaled to sum 1) and status bytes. Beliefs that agree to 1e-11 are one:
 * the same results in another order differ by rounding only. A hit is compared in full; nothing rests on the hash.
 */
export class StateTable<T> {
  private readonly buckets = new Map<number, { belief: Float64Array; status: Uint8Array; value: T }[]>();
  size = 0;

  get(belief: Float64Array, status: Uint8Array): T | undefined {
    const bucket = this.buckets.get(hash(belief, status));
    if (!bucket) return undefined;
    for (const entry of bucket) if (sameBytes(entry.status, status) && close(entry.belief, belief)) return entry.value;
    return undefined;
  }

  /** Keeps the arrays given: the caller must not change them afterwards. */
  set(belief: Float64Array, status: Uint8Array, value: T): void {
    const key = hash(belief, status);
    const bucket = this.buckets.get(key);
    if (bucket) bucket.push({ belief, status, value });
    else this.buckets.set(key, [{ belief, status, value }]);
    this.size++;
  }
}

function hash(belief: Float64Array, status: Uint8Array): number {
  let key = 0x811c9dc5;
  for (let i = 0; i < status.length; i++) key = Math.imul(key ^ (status[i] as number), 0x01000193);
  for (let i = 0; i < belief.length; i++) key = Math.imul(key ^ Math.round((belief[i] as number) * 1e8), 0x01000193) ^ (key >>> 15);
  return key;
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function close(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (Math.abs((a[i] as number) - (b[i] as number)) > 1e-11) return false;
  return true;
}
