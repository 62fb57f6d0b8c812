import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowNode } from '../../src/compile/flow.ts';
import { flowNodes } from '../../src/compile/flow.ts';
import { flowMermaid, mermaidText } from '../../src/compile/flow-mermaid.ts';
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
