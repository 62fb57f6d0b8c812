/** A flowchart on paper: cut between its boxes into pieces that fit a page with letters that can be read, or not drawn at all. */
import type { FlowGeometry } from './flow-svg.ts';

export interface FlowSlice {
  readonly top: number;
  readonly height: number;
}

export interface FlowPaper {
  readonly orientation: 'portrait' | 'landscape';
  readonly slices: readonly FlowSlice[];
}

/** Smallest letters of the drawing, in its own units: `.flow-figure` and `.flow-label`. */
const smallestLetter = 13;
/** Smallest letters on paper. Common practice for text that is read at arm's length, no source. */
export const leastPoints = 7;
const pointsPerPixel = 0.75;
const pixelsPerMillimetre = 96 / 25.4;

/** Room of a page inside margins of 14 mm, on the smaller of A4 and Letter each way, less heading and caption. */
const pages = {
  portrait: { width: 182 * pixelsPerMillimetre, height: 222 * pixelsPerMillimetre },
  landscape: { width: 250 * pixelsPerMillimetre, height: 158 * pixelsPerMillimetre },
} as const;

/** Upright if it fits so, else across; null when its letters would be smaller than `leastPoints` both ways: the list in words is printed instead. */
export function flowPaper(geometry: FlowGeometry): FlowPaper | null {
  const bands = bandsOf(geometry);
  for (const orientation of ['portrait', 'landscape'] as const) {
    const page = pages[orientation];
    const scale = Math.min(1, page.width / (geometry.width + 16));
    if (scale * smallestLetter * pointsPerPixel < leastPoints) continue;
    const slices = evenSlices(bands, geometry.height + 20, page.height / scale);
    if (slices) return { orientation, slices };
  }
  return null;
}

/** Stretches from top to bottom that hold boxes or labels; between them only arrows run. */
function bandsOf({ nodes, edges }: FlowGeometry): readonly (readonly [top: number, bottom: number])[] {
  const stretch = ({ y, height }: { readonly y: number; readonly height: number }) => [y - height / 2, y + height / 2] as const;
  // The dotted tail of a box stands under it.
  const boxes = nodes.map((node) => [node.y - node.height / 2, node.y + node.height / 2 + 16] as const);
  const labels = edges.filter(({ label }) => label.rows.length > 0).map(({ label }) => stretch(label));
  const merged: [number, number][] = [];
  for (const [top, bottom] of [...boxes, ...labels].sort((a, b) => a[0] - b[0])) {
    const last = merged.at(-1);
    if (last && top <= last[1]) last[1] = Math.max(last[1], bottom);
    else merged.push([top, bottom]);
  }
  return merged;
}

/** As few slices as fit, and among those as even as can be: no page with one box at its end. */
function evenSlices(bands: ReturnType<typeof bandsOf>, bottom: number, most: number): readonly FlowSlice[] | null {
  const fewest = slicesOf(bands, bottom, most);
  if (!fewest) return null;
  for (let height = bottom / fewest.length; height < most; height += 10) {
    const even = slicesOf(bands, bottom, height);
    if (even && even.length <= fewest.length) return even;
  }
  return fewest;
}

/** Cuts in the middle of gaps, as few as there can be; null when one stretch alone is too tall. */
function slicesOf(bands: ReturnType<typeof bandsOf>, bottom: number, most: number): readonly FlowSlice[] | null {
  const slices: FlowSlice[] = [];
  let top = -4;
  for (const [index, [, end]] of bands.entries()) {
    if (end - top <= most) continue;
    const before = bands[index - 1];
    const cut = before ? (before[1] + bands[index]![0]) / 2 : top;
    if (cut <= top || end - cut > most) return null;
    slices.push({ top, height: cut - top });
    top = cut;
  }
  return [...slices, { top, height: Math.max(1, bottom - top) }];
}

const figure = (value: number): string => String(Number(value.toFixed(1)));

/** The slices as pictures of their own, each showing its part of the one drawing on the page (`id="flow-drawing"`). */
export function slicesSvg({ slices }: FlowPaper, width: number): string {
  return slices
    .map(
      ({ top, height }) =>
        `<svg class="flow-slice" viewBox="-8 ${figure(top)} ${figure(width + 16)} ${figure(height)}" width="${figure(width + 16)}" height="${figure(height)}"><use href="#flow-drawing"/></svg>`,
    )
    .join('');
}
