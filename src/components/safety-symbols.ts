/**
 * Safety symbols by their ISO 7010 number, drawn by us after the meaning and the shapes and colours that ISO 3864 prescribes:
 * yellow triangle with a black border (warning), blue disc with a white figure (mandatory action), red ring with a bar
 * (prohibition). The drawings are on a field of 64 by 64 and are no copies of the registered artwork.
 */
export interface SafetySymbol {
  readonly kind: 'warning' | 'mandatory' | 'prohibition';
  readonly title: string;
  /** SVG inside the shape; drawn in the figure's colour. `s` strokes, `f` fills. */
  readonly figure: string;
}

const s = (d: string, width = 3) => `<path class="symbol-stroke" stroke-width="${width}" d="${d}"/>`;
const f = (d: string) => `<path class="symbol-fill" d="${d}"/>`;
const dot = (x: number, y: number, r: number) => `<circle class="symbol-fill" cx="${x}" cy="${y}" r="${r}"/>`;
const gap = (x: number, y: number, r: number) => `<circle class="symbol-gap" cx="${x}" cy="${y}" r="${r}"/>`;

const warning = (title: string, figure: string): SafetySymbol => ({ kind: 'warning', title, figure });
const mandatory = (title: string, figure: string): SafetySymbol => ({ kind: 'mandatory', title, figure });

const head = dot(32, 24, 10) + f('M18 52c0-12 6-17 14-17s14 5 14 17z');

export const safetySymbols: Readonly<Record<string, SafetySymbol>> = {
  W001: warning('Warning', f('M29 23h6l-1.2 19h-3.6z') + dot(32, 48, 3.3)),
  W002: warning('Explosive material', f('M32 22l3 8 8-4-4 8 8 4-9 2 3 8-7-5-4 8-2-9-8 4 4-8-8-3 8-3-3-8 8 4z')),
  W012: warning('Electricity', f('M35 20 24 40h7l-4 14 13-19h-8l5-15z')),
  W016: warning(
    'Toxic material',
    dot(32, 32, 9.5) + f('M26 38h12v7H26z') + gap(28.4, 32, 2.6) + gap(35.6, 32, 2.6) + s('M20 45 44 54M44 45 20 54', 3.4),
  ),
  W017: warning('Hot surface', s('M22 52h20', 3.4) + s('M25 47c-3-5 3-7 0-13M32 47c-3-5 3-8 0-15M39 47c-3-5 3-7 0-13', 3)),
  W018: warning('Starts by itself', s('M41 33a10 10 0 1 0 1.5 8', 3.4) + f('M45 28v10l-9-3z') + dot(32, 40, 3)),
  W019: warning('Crushing', f('M18 50h28v4H18zM22 27h20v4H22z') + s('M32 32v12', 3.4) + f('M27 42h10l-5 7z')),
  W021: warning(
    'Flammable material',
    f('M32 19c2 8 9 10 9 20 0 5-3 8-6 9 2-5-1-8-3-11-2 4-6 6-4 11-3-1-6-4-6-9 0-8 8-11 10-20z') + f('M21 50h22v3.5H21z'),
  ),
  W022: warning('Sharp edge', f('M40 22 28 46l-4 3 1-6z') + s('M20 53h24', 3)),
  W023: warning('Corrosive', f('M24 24l10 5-2 4-10-5z') + dot(33, 38, 2) + dot(36, 43, 2) + s('M20 50h9l3 4 3-4h9', 3.2)),
  W024: warning('Crushing of hands', f('M19 51h26v4H19zM24 24h16v5H24z') + s('M26 47v-9m4 9V36m4 11V36m4 11v-9', 3) + s('M32 29v4', 3)),
  W026: warning(
    'Battery charging',
    f('M21 32h22v20H21z') +
      f('M25 28h4v4h-4zM35 28h4v4h-4z') +
      '<path class="symbol-gap-stroke" stroke-width="2.6" d="M24 42h6M34 42h6M37 39v6"/>',
  ),
  W029: warning(
    'Pressurised cylinder',
    f('M28 27c0-3 8-3 8 0 4 1 5 4 5 7v20H23V34c0-3 1-6 5-7zM29 20h6v4h-6z') +
      '<path class="symbol-gap-stroke" stroke-width="2.4" d="M27 40h10"/>',
  ),
  W038: warning('Sudden loud noise', f('M23 36h5l7-6v20l-7-6h-5z') + s('M39 34c3 3 3 9 0 12M43 30c5 5 5 15 0 20', 2.6)),
  W046: warning('Danger of suffocation', dot(32, 31, 6) + s('M22 54c0-9 4-13 10-13s10 4 10 13', 3.4) + s('M24 25c3-5 13-5 16 0', 2.6)),
  M001: mandatory('Do as it says', f('M28 13h8l-1.6 25h-4.8z') + dot(32, 47, 4.4)),
  M002: mandatory('Read the service information', f('M12 20c8-3 14-2 19 2v26c-5-4-11-5-19-2zM52 20c-8-3-14-2-19 2v26c5-4 11-5 19-2z')),
  M003: mandatory('Wear ear protection', [head, s('M19 26a13 13 0 0 1 26 0', 3), f('M15 22h6v10h-6zM43 22h6v10h-6z')].join('')),
  M004: mandatory(
    'Wear eye protection',
    [head, '<path class="symbol-gap" d="M20 20h11v7H21zM33 20h11v7H34z"/>', s('M20 20h24', 2)].join(''),
  ),
  M009: mandatory('Wear gloves', f('M22 52V34l-5-8 3-2 5 6V14h4v13h2V11h4v16h2V14h4v15h2v-9h4v19c0 6-2 9-4 13z')),
  M016: mandatory(
    'Wear a mask',
    [head, '<path class="symbol-gap" d="M24 26h16v5c0 3-4 5-8 5s-8-2-8-5z"/>' + s('M22 24l3 3M42 24l-3 3', 2)].join(''),
  ),
  M021: mandatory(
    'Disconnect before work',
    f('M13 29h12v-5h5v16h-5v-5H13z') + f('M51 29H40v6h11zM39 24h-4v16h4z') + s('M31 17l4-6M33 46l-2 7', 2.6),
  ),
  P003: {
    kind: 'prohibition',
    title: 'No flame, no spark, no smoking',
    figure: f('M31 17c2 6 7 8 7 15 0 5-3 7-6 8-3-1-6-3-6-8 0-6 4-9 5-15zM28 42h8v8h-8z'),
  },
};
