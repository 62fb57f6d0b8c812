import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowNode } from '../../src/compile/flow.ts';
import { flowNodes } from '../../src/compile/flow.ts';
import { flowMermaid, mermaidText } from '../../src/compile/flow-mermaid.ts';
import { flowPaper, leastPoints } from '../../src/compile/flow-paper.ts';
import { type FlowGeometry, flowSvg } from '../../src/compile/flow-svg.ts';

const hostile = [
  '"] --> x["owned',
  '<script>alert(1)</script>',
  '%%{init: {"securityLevel":"loose"}}%%',
  'click n0 call alert()',
  '`code` **bold** $$x$$',
  'end',
  '1. first',
  '- dash',
  'a;b\nsubgraph z',
  '#quot; &quot;',
];

const leaf = (title: string, label = 'found'): FlowNode => ({
  key: 'check-a',
  kind: 'check',
  id: 'a',
  title,
  href: '/checks/a/',
  chance: 1,
  spine: true,
  branches: [
    {
      label,
      chance: 0.5,
      spine: true,
      to: { key: 'hand-over', kind: 'hand-over', id: 'hand-over', title: 'Hand over', href: null, chance: 0.5, spine: true, branches: [] },
    },
    { label: 'rare', chance: 0.001, spine: false, to: null },
  ],
});

const place = { x: 10, y: 10, width: 100, height: 40 };
const geometry = (rows: readonly string[]): FlowGeometry => ({
  width: 300,
  height: 200,
  nodes: [
    { ...place, rows },
    { ...place, rows: ['Hand over'] },
  ],
  edges: [{ path: 'M0 0L1 1', label: { ...place, rows } }],
});

describe('the text of a flowchart', () => {
  test('has one box a node and one arrow a drawn branch', () => {
    const text = flowMermaid(leaf('Look'));
    expect(text.match(/^ {2}n\d+[[(]/gm)).toHaveLength(flowNodes(leaf('Look')).length);
    expect(text.match(/-->/g)).toHaveLength(1);
  });

  test.each(hostile)('keeps %j inside its quotes', (title) => {
    const text = flowMermaid(leaf(title, title));
    const outside = text.replace(/"[^"\n]*"/g, '""');
    expect(outside).toBe(flowMermaid(leaf('Look', 'found')).replace(/"[^"\n]*"/g, '""'));
  });

  test('whatever a text holds, nothing but letters, figures, blanks and harmless marks is left unescaped', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(mermaidText(text).replace(/#\d+;/g, '')).toMatch(/^[\p{L}\p{N} .,'/()?!+°%-]*$/u);
        expect(mermaidText(text)).not.toContain('%%');
      }),
    );
  });
});

describe('the picture of a flowchart', () => {
  test.each(hostile)('shows %j as text', (title) => {
    const svg = flowSvg({ ...leaf(title), href: `/checks/${title}/` }, geometry([title]), title);
    expect(svg).not.toMatch(/<script|<foreignObject|<style| on\w+=| style=/i);
    const tags = [...svg.matchAll(/<\/?([a-zA-Z]+)/g)].map((match) => match[1]);
    expect(new Set(tags)).toEqual(new Set(['svg', 'defs', 'marker', 'path', 'g', 'a', 'rect', 'text', 'tspan']));
  });

  test('marks a box with branches too rare to draw, and gives each box a stable id', () => {
    const svg = flowSvg(leaf('Look'), geometry(['Look']), 'Order');
    expect(svg).toContain('flow-tail');
    expect(svg).toContain('id="flow-check-a"');
    expect(svg).toContain('id="flow-hand-over"');
  });
});

describe('a flowchart on paper', () => {
  const columnOf = (boxes: number, width: number): FlowGeometry => ({
    width,
    height: boxes * 160,
    nodes: Array.from({ length: boxes }, (_, row) => ({ x: width / 2, y: 40 + row * 160, width: width - 20, height: 80, rows: ['Look'] })),
    edges: Array.from({ length: boxes - 1 }, (_, row) => ({
      path: '',
      label: { x: width / 2, y: 120 + row * 160, width: 60, height: 18, rows: ['good'] },
    })),
  });

  test('stands upright where it fits, lies across where it is wider, and is left to the list in words where neither can be read', () => {
    expect(flowPaper(columnOf(3, 500))?.orientation).toBe('portrait');
    expect(flowPaper(columnOf(3, 1200))?.orientation).toBe('landscape');
    expect(flowPaper(columnOf(3, 2000))).toBeNull();
  });

  test('its smallest letters are never under seven points, and every slice fits its page', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 100, max: 2500 }), (boxes, width) => {
        const paper = flowPaper(columnOf(boxes, width));
        if (!paper) return;
        // Millimetres between margins of 14 mm: the narrower of A4 (210 x 297) and Letter (215.9 x 279.4) each way.
        const [across, down] = paper.orientation === 'portrait' ? [182, 251.4] : [251.4, 182];
        const scale = Math.min(1, ((across / 25.4) * 96) / (width + 16));
        expect(scale * 13 * 0.75).toBeGreaterThanOrEqual(leastPoints);
        for (const { height } of paper.slices) expect((scale * height * 25.4) / 96).toBeLessThanOrEqual(down);
      }),
    );
  });

  test('no box and no label is cut, and nothing is left out', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 100, max: 1300 }), (boxes, width) => {
        const geometry = columnOf(boxes, width);
        const { slices } = flowPaper(geometry)!;
        const cuts = slices.slice(1).map(({ top }) => top);
        const within = ({ y, height }: { y: number; height: number }) => cuts.filter((cut) => cut > y - height / 2 && cut < y + height / 2);
        expect([...geometry.nodes, ...geometry.edges.map(({ label }) => label)].flatMap(within)).toEqual([]);
        for (const [index, slice] of slices.slice(1).entries())
          expect(slice.top).toBeCloseTo(slices[index]!.top + slices[index]!.height, 6);
        expect(slices.at(-1)!.top + slices.at(-1)!.height).toBeGreaterThanOrEqual(geometry.height);
      }),
    );
  });
});
