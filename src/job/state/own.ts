/** Entries of the knowledge by ids that come from a job. Saved jobs and links are written by strangers, and every object answers to "constructor". */
export const own = <Value>(table: Readonly<Record<string, Value>>, id: string): Value | undefined =>
  Object.hasOwn(table, id) ? table[id] : undefined;
