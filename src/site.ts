/** The one place that reads content for the pages: checked, compiled and kept for the whole build. */
import { type Catalogue, catalogueOf } from './compile/catalogue.ts';
import { codeFormulation } from './compile/code-page.ts';
import type { FlowNode } from './compile/flow.ts';
import { flowMermaid } from './compile/flow-mermaid.ts';
import { type FlowPaper, flowPaper, slicesSvg } from './compile/flow-paper.ts';
import { flowSvg } from './compile/flow-svg.ts';
import { files } from './content-texts.ts';
import { codeOrders } from './kept/code-orders.ts';
import { keptContent } from './kept/content.ts';
import { keptDiagram, layOutDiagrams } from './kept/diagrams.ts';
import { compileKnowledge } from './model/compile-knowledge.ts';
import { contentHash } from './model/hash.ts';
import { loadContent } from './model/load.ts';
import type { Problem } from './model/problem.ts';
import { textReport } from './model/report.ts';

/** An error that the dev server shows over the page with its place in the content. */
function contentError(errors: readonly Problem[]): Error {
  const [first] = errors;
  const error = new Error(textReport(errors, files));
  error.name = `Content: ${errors.length} ${errors.length === 1 ? 'fault' : 'faults'}`;
  return Object.assign(error, { loc: { file: first!.file, line: first!.line, column: first!.column }, hint: first!.mend });
}

function load(): Catalogue {
  const { content, problems } = loadContent(files);
  const errors = problems.filter((problem) => problem.severity === 'error');
  if (errors.length > 0) throw contentError(errors);
  return catalogueOf(content, compileKnowledge(content, contentHash(files)));
}

/** A build names the content that it has checked and compiled already; `npm run dev` names none. */
function handedOver(hash: string | undefined): Catalogue | null {
  if (!hash) return null;
  const checked = keptContent(hash);
  if (!checked) throw new Error(`The content ${hash} that the build has checked is not kept any more: build anew.`);
  return catalogueOf(checked.content, checked.knowledge);
}

/** Whether a build makes the pages: `npm run dev` and the type check have nothing handed over. */
export const isBuild = Boolean(process.env.LAMPWISE_CONTENT);

export const catalogue = handedOver(process.env.LAMPWISE_CONTENT) ?? load();
export const { content, knowledge, links, cut } = catalogue;

export const orderOfCode = codeOrders((code) => codeFormulation(catalogue, code));

export interface FlowPicture {
  readonly svg: string;
  /** The same cut for paper; null where its letters would be too small on any page. */
  readonly paper: { readonly orientation: FlowPaper['orientation']; readonly svg: string } | null;
}

/** The flowchart as SVG elements; laid out before the build, or now in `npm run dev`. */
export async function flowPicture(flow: FlowNode, title: string): Promise<FlowPicture> {
  const text = flowMermaid(flow);
  if (!keptDiagram(text)) await layOutDiagrams([text]);
  const geometry = keptDiagram(text)!;
  const paper = flowPaper(geometry);
  return {
    svg: flowSvg(flow, geometry, title),
    paper: paper && { orientation: paper.orientation, svg: slicesSvg(paper, geometry.width) },
  };
}
