/** Where Mermaid put things -> our own SVG: classes only, coloured by the site's tokens, no foreign markup. */
import type { FlowNode } from './flow.ts';
import { flowNodes } from './flow.ts';

export interface FlowGeometry {
  readonly width: number;
  readonly height: number;
  /** In the order of the boxes of the text: n0, n1, ... */
  readonly nodes: readonly {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
    readonly rows: readonly string[];
  }[];
  /** In the order of the arrows of the text. */
  readonly edges: readonly {
    readonly path: string;
    readonly label: {
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly rows: readonly string[];
    };
  }[];
}

const markup = (text: string): string => text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
const figure = (value: number): string => String(Number(value.toFixed(1)));

/** Lines of text about a middle point. */
function lines(rows: readonly string[], x: number, y: number, size: number, lastClass = ''): string {
  const step = size * 1.2;
  const top = y - ((rows.length - 1) * step) / 2 + size * 0.35;
  const classOf = (index: number) => (lastClass && index === rows.length - 1 ? ` class="${lastClass}"` : '');
  return rows
    .map((row, index) => `<tspan${classOf(index)} x="${figure(x)}" y="${figure(top + index * step)}">${markup(row)}</tspan>`)
    .join('');
}

/** Id of a box in the page: `flow-check-read-manifold-vacuum`. */
export const flowBoxId = (node: FlowNode): string => `flow-${node.key}`;

/** An SVG element as text; every string in it is escaped and every number rounded. Titled for those who do not see it. */
export function flowSvg(root: FlowNode, geometry: FlowGeometry, title: string): string {
  const nodes = flowNodes(root);
  const edges = nodes.flatMap((node) => node.branches.filter((branch) => branch.to !== null));
  const boxes = nodes.map((node, index) => {
    const place = geometry.nodes[index]!;
    // Mermaid pads round boxes less than square ones.
    const width = place.width + (node.kind === 'repair' ? 14 : 4);
    const left = place.x - width / 2;
    const top = place.y - place.height / 2;
    const size = `width="${figure(width)}" height="${figure(place.height)}"`;
    const corner = node.kind === 'repair' ? ' rx="16"' : '';
    const inner =
      node.kind === 'hand-over'
        ? `<path d="M${figure(left + 7)} ${figure(top)}v${figure(place.height)}M${figure(left + width - 7)} ${figure(top)}v${figure(place.height)}"/>`
        : '';
    const text = `<text>${lines(place.rows, place.x, place.y, 15, 'flow-figure')}</text>`;
    const rarer = node.branches.some((branch) => branch.to === null);
    const tail = rarer ? `<path class="flow-tail" d="M${figure(left + 20)} ${figure(top + place.height)}v16"/>` : '';
    const body = `<rect x="${figure(left)}" y="${figure(top)}" ${size}${corner}/>${inner}${text}`;
    const linked = node.href ? `<a href="${markup(node.href)}">${body}</a>` : body;
    return `<g id="${markup(flowBoxId(node))}" class="flow-box flow-${node.kind}${node.spine ? ' flow-spine' : ''}">${linked}${tail}</g>`;
  });
  const arrows = edges.map(
    (branch, index) =>
      `<path class="flow-arrow${branch.spine ? ' flow-spine' : ''}" d="${geometry.edges[index]!.path}" marker-end="url(#flow-head)"/>`,
  );
  const labels = edges.map((_, index) => {
    const { label } = geometry.edges[index]!;
    return `<g class="flow-label"><rect x="${figure(label.x - label.width / 2 - 3)}" y="${figure(label.y - label.height / 2)}" width="${figure(label.width + 6)}" height="${figure(label.height)}"/><text>${lines(label.rows, label.x, label.y, 13)}</text></g>`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="flow" viewBox="-8 -4 ${figure(geometry.width + 16)} ${figure(geometry.height + 24)}" width="${figure(geometry.width + 16)}" height="${figure(geometry.height + 24)}" role="group" aria-label="${markup(title)}">`,
    '<defs><marker id="flow-head" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="9" markerHeight="9" markerUnits="userSpaceOnUse" orient="auto"><path d="M0 0 10 5 0 10z"/></marker></defs>',
    '<g id="flow-drawing" class="flow-drawing">',
    ...arrows,
    ...boxes,
    ...labels,
    '</g></svg>',
  ].join('');
}
