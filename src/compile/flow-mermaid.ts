/** A flow as Mermaid text. Every character that Mermaid could read as more than text is written as its entity code. */
import { percent } from './figures.ts';
import { type FlowNode, flowNodes } from './flow.ts';

/** Text that Mermaid shows as it is: letters, figures and harmless marks stay, all else becomes `#code;`. */
export function mermaidText(text: string): string {
  return (
    [...text.replace(/\s+/g, ' ').trim()]
      // One percent sign is text; two start a comment or a directive.
      .map((character, index, all) =>
        /[\p{L}\p{N} .,'/()?!+°-]/u.test(character) || (character === '%' && all[index - 1] !== '%' && all[index + 1] !== '%')
          ? character
          : `#${character.codePointAt(0)};`,
      )
      .join('')
      // "1. text" and "- text" at the start would be read as a list.
      .replace(/^(\d+)\./, '$1#46;')
      .replace(/^-/, '#45;')
  );
}

/** Characters of a label; the full words stand in the list beside the chart. */
const longestLabel = 90;
const shortened = (text: string): string => (text.length <= longestLabel ? text : `${text.slice(0, longestLabel - 1).trimEnd()}…`);

/** The text under a box's title. */
export const boxFigure = (node: FlowNode): string => `reached in ${percent(node.chance)}`;

/** Flowchart text: boxes `n0`, `n1`, ... in the order of `flowNodes`. */
export function flowMermaid(root: FlowNode): string {
  const nodes = flowNodes(root);
  const name = (node: FlowNode) => `n${nodes.indexOf(node)}`;
  const box = (node: FlowNode) => {
    const label = `"${mermaidText(shortened(node.title))}<br/>${mermaidText(boxFigure(node))}"`;
    return node.kind === 'check' ? `[${label}]` : node.kind === 'repair' ? `(${label})` : `[[${label}]]`;
  };
  return [
    'flowchart TD',
    ...nodes.map((node) => `  ${name(node)}${box(node)}`),
    ...nodes.flatMap((node) =>
      node.branches.flatMap((branch) =>
        branch.to ? [`  ${name(node)} -->|"${mermaidText(shortened(branch.label))}"| ${name(branch.to)}`] : [],
      ),
    ),
    '',
  ].join('\n');
}
