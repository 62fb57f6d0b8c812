/** Texts that would do something if any part of the site took them for more than text, and content that is full of them. */
import { parse } from 'yaml';
import { loadContent } from '../../src/model/load.ts';
import type { ContentFile } from '../../src/model/problem.ts';

/** Each calls `ran` with its own number, or puts an `x-ran` element on the page, if it gets its way. */
const hostile: readonly ((number: number) => string)[] = [
  (n) => `<x-ran></x-ran><script>ran(${n})</script>`,
  (n) => `<img src=x onerror=ran(${n})>`,
  (n) => `"><svg onload=ran(${n})><x-ran>`,
  (n) => `' onmouseover=ran(${n}) autofocus onfocus="ran(${n})" x='`,
  (n) => `</title></textarea></script><x-ran><script>ran(${n})</script>`,
  (n) => `[go](javascript:ran(${n})) <a href="javascript:ran(${n})">go</a>`,
  (n) => `<iframe srcdoc="<script>parent.ran(${n})</script>"></iframe>`,
  (n) => `<a href="data:text/html,<script>ran(${n})</script>">x</a>`,
  (n) => `{{constructor.constructor("ran(${n})")()}} \${ran(${n})} {ran(${n})} <%= ran(${n}) %>`,
  (n) => `<!--<script>ran(${n})--> ]]> &lt;x-ran&gt; &#60;x-ran&#62; &amp;amp; %3Cx-ran%3E`,
  (n) => `$& $1 $' $\` \\u003cx-ran\\u003e ran(${n}) \\`,
  (n) => `<math><mtext><table><mglyph><style><img src=x onerror=ran(${n})>`,
  (n) => `<base href="https://a.invalid/"><meta http-equiv=refresh content="0;url=javascript:ran(${n})">`,
  (n) => `<template><x-ran></template><form action=javascript:ran(${n})><button>b`,
  // A hundred characters without a place to break.
  (n) => `${'W'.repeat(96)}${n}`,
];

/** For the boxes and arrows of flowcharts, beside the above. */
const hostileToCharts: readonly ((number: number) => string)[] = [
  (n) => `"] n9["<x-ran>" click n0 call ran(${n})`,
  (n) => `%%{init: {"securityLevel":"loose"}}%% ran(${n})`,
  (n) => `\`**b** <img src=x onerror=ran(${n})>\``,
  (n) => `#lt;x-ran#gt; &#35;lt; #quot;;click n1 href "javascript:ran(${n})"`,
  (n) => `| n0 -->|x| n0:::ran(${n}) -- --> ---`,
  (n) => `fa:fa-x <br/><x-ran> $$\\href{javascript:ran(${n})}{x}$$`,
];

const inCharts = /^content\/(checks\/[^:]+: title|checks\/.+outcomes\.\d+\.title|causes\/.+repair\.title)$/;
export const firstNumber = 7001;

export interface HostileText {
  readonly number: number;
  /** `content/checks/look-at-hoses.yaml: outcomes.0.title` */
  readonly at: string;
  /** What a page shows of the field: all of it, but of a source only the place in it. */
  readonly text: string;
}

type Tree = string | number | boolean | null | Tree[] | { [key: string]: Tree };

/** Places of all texts within a value. */
function textPlaces(value: Tree, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof value === 'string') return [path];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => textPlaces(inner, [...path, Array.isArray(value) ? Number(key) : key]));
}

const at = (value: Tree, path: readonly (string | number)[]): Tree =>
  path.reduce((inner, key) => (inner as Record<string | number, Tree>)[key]!, value);

/** The value with another text at one place. */
function withText(value: Tree, path: readonly (string | number)[], text: string): Tree {
  const copy = structuredClone(value);
  (at(copy, path.slice(0, -1)) as Record<string | number, Tree>)[path.at(-1)!] = text;
  return copy;
}

/**
 * The content with something hostile behind every text in which the loader lets a stranger write it. Fields that the schemas
 * keep to ids, words of a list or numbers stay as they are, because the loader refuses anything else there.
 */
export function madeHostile(content: readonly ContentFile[]): {
  readonly files: readonly ContentFile[];
  readonly texts: readonly HostileText[];
} {
  const texts: HostileText[] = [];
  let files = content;
  let inChart = 0;
  const accepted = (path: string, value: Tree): boolean => {
    const next = files.map((file) => (file.path === path ? { path, text: JSON.stringify(value, null, 1) } : file));
    if (loadContent(next).problems.some((problem) => problem.severity === 'error')) return false;
    files = next;
    return true;
  };
  for (const { path, text } of content) {
    let value = parse(text) as Tree;
    for (const place of textPlaces(value)) {
      const number = firstNumber + texts.length;
      const where = `${path}: ${place.join('.')}`;
      const make = inCharts.test(where) ? hostileToCharts[inChart++ % hostileToCharts.length]! : hostile[number % hostile.length]!;
      const full = `${at(value, place) as string} ${make(number)}`;
      const changed = withText(value, place, full);
      if (!accepted(path, changed)) continue;
      value = changed;
      texts.push({ number, at: where, text: place.at(-1) === 'source' ? full.slice(full.indexOf(' ') + 1) : full });
    }
  }
  return { files, texts };
}
