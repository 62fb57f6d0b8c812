import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

/**
 * Which room may import which. Arrows run one way: pages and job -> compile -> model -> engine. `packages` are the npm and
 * Node modules that a room may use besides; `*` is any.
 */
const rooms: Record<string, { rooms: string[]; packages: string[] }> = {
  'src/engine': { rooms: ['src/engine'], packages: [] },
  'src/model': { rooms: ['src/model', 'src/engine'], packages: ['yaml', 'zod', 'fastest-levenshtein'] },
  'src/compile': { rooms: ['src/compile', 'src/model', 'src/engine'], packages: ['*'] },
  'src/job': {
    rooms: ['src/job', 'src/engine'],
    packages: ['preact', 'preact/hooks', '@preact/signals', 'idb', 'd3-scale', 'd3-shape', 'd3-array'],
  },
  // The units library is for the build: what the browser gets is looked at in tests/bench/browser.test.ts.
  'src/bench': { rooms: ['src/bench', 'src/engine'], packages: ['preact', 'preact/hooks', 'mathjs'] },
  src: { rooms: ['src'], packages: ['*'] },
  scripts: { rooms: ['scripts', 'src'], packages: ['*'] },
};

const importPattern = /(?:^|\n)[^'"\n]*(?:\bfrom|\bimport)\s+['"]([^'"\s]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g;

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sourceFiles(path);
    return /\.(ts|tsx|astro|mjs)$/.test(entry.name) ? [path] : [];
  });
}

const imports = [...sourceFiles('src'), ...sourceFiles('scripts')].flatMap((file) =>
  [...readFileSync(file, 'utf8').matchAll(importPattern)].map((match) => ({ file, target: (match[1] ?? match[2])! })),
);
const roomOf = (path: string) => Object.keys(rooms).find((room) => path === room || path.startsWith(`${room}/`))!;
const local = (file: string, target: string) => relative('.', resolve(dirname(file), target));

describe('rooms of the code', () => {
  test('imports were found at all', () => {
    expect(imports.length).toBeGreaterThan(100);
  });

  test('a file imports only from rooms and packages that its room may use', () => {
    const broken = imports.flatMap(({ file, target }) => {
      const room = rooms[roomOf(file)]!;
      if (target.startsWith('.')) {
        const path = local(file, target);
        // An import in the text of a file that a bench generates; the type check finds those that are real and lead nowhere.
        if (!existsSync(path)) return [];
        return room.rooms.some((allowed) => path === allowed || path.startsWith(`${allowed}/`)) ||
          (path.startsWith('content/') && roomOf(file) === 'src')
          ? []
          : [`${file} imports ${path}`];
      }
      return room.packages.includes('*') || room.packages.includes(target) ? [] : [`${file} imports ${target}`];
    });
    expect(broken).toEqual([]);
  });

  test('the engine has no clock and no randomness of its own', () => {
    const used = sourceFiles('src/engine').filter((file) =>
      /Date\.now|new Date\b|Math\.random|performance\.now|\bprocess\.|\bdocument\.|\bwindow\./.test(
        readFileSync(file, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, ''),
      ),
    );
    expect(used).toEqual([]);
  });

  test('nothing imports in a circle', () => {
    const graph = new Map<string, string[]>();
    for (const { file, target } of imports) if (target.startsWith('.')) graph.set(file, [...(graph.get(file) ?? []), local(file, target)]);
    const done = new Set<string>();
    const circle = (file: string, chain: readonly string[]): readonly string[] | null => {
      if (chain.includes(file)) return [...chain.slice(chain.indexOf(file)), file];
      if (done.has(file)) return null;
      for (const next of graph.get(file) ?? []) {
        const found = circle(next, [...chain, file]);
        if (found) return found;
      }
      done.add(file);
      return null;
    };
    for (const file of graph.keys()) expect(circle(file, [])).toBeNull();
  });
});
