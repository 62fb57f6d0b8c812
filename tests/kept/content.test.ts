import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { keepContent, keptContent } from '../../src/kept/content.ts';
import { kinds } from '../../src/model/schema/index.ts';

const place = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'lampwise-content-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

test('checked content comes back as it was, every kind in its order, by the hash of its files', () => {
  const folder = place();
  const checked = knowledgeOrExit();
  keepContent(checked, folder);
  const back = keptContent(checked.knowledge.hash, folder)!;
  expect(back.knowledge).toStrictEqual(checked.knowledge);
  for (const kind of kinds) expect([...back.content[kind]], kind).toStrictEqual([...checked.content[kind]]);
});

test('content of another hash is not it', () => {
  const folder = place();
  keepContent(knowledgeOrExit('tests/good'), folder);
  expect(keptContent('0000000000000000', folder)).toBeNull();
});
