/**
 * npm run schema [-- --check]: writes the JSON Schemas of content for editors, and the editor settings that map them to
 * folders. With --check writes nothing and exits 1 when a file is not up to date. Exit code 2 on wrong use.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { editorSchemas, jsonSchema } from '../src/model/json-schema.ts';
import { type Kind, kinds } from '../src/model/schema/index.ts';
import { runCommand } from './content/command.ts';

const schemaPath = (kind: Kind): string => `src/static/schemas/${kind}.json`;

function main(): number {
  const { values } = parseArgs({ options: { check: { type: 'boolean', default: false }, root: { type: 'string', default: '.' } } });
  const json = (value: object) => `${JSON.stringify(value, null, 2)}\n`;
  const files: [path: string, text: string][] = [
    ...kinds.map((kind): [string, string] => [schemaPath(kind), json(jsonSchema(kind))]),
    ['.vscode/settings.json', json({ 'yaml.schemas': editorSchemas(schemaPath), 'files.eol': '\n' })],
  ];
  const stale = files.filter(([path, text]) => {
    const full = join(values.root, path);
    return !existsSync(full) || readFileSync(full, 'utf8') !== text;
  });
  for (const [path, text] of stale) {
    console.log(values.check ? `${path} is not up to date: run npm run schema.` : `${path} written.`);
    if (values.check) continue;
    mkdirSync(dirname(join(values.root, path)), { recursive: true });
    writeFileSync(join(values.root, path), text);
  }
  if (stale.length === 0) console.log(`${files.length} files are up to date.`);
  return values.check && stale.length > 0 ? 1 : 0;
}

await runCommand('npm run schema -- [--check]', main);
