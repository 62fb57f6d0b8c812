import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readContent } from '../../scripts/content/read.ts';
import { jsonSchema } from '../../src/model/json-schema.ts';
import { type Kind, kinds } from '../../src/model/schema/index.ts';
import { badFolder, goodFiles } from '../model/bad-content.ts';
import { copyOfProject, project, run } from './command-line.ts';

/** An independent validator; strict, so that a keyword that it does not know is a fault. */
const validators = new Map(
  kinds.map((kind) => [kind, new Ajv({ strict: true, strictTypes: false, allErrors: true }).compile(jsonSchema(kind))]),
);
const kindOf = (path: string) => path.split('/')[1] as Kind;

describe('the JSON Schemas for editors', () => {
  it('are up to date, with the settings that map them to folders', () => {
    expect(run(project, 'schema', '--check')).toEqual({ code: 0, out: '18 files are up to date.\n', err: '' });
  });

  it('are written anew when they are not', () => {
    const folder = copyOfProject();
    const path = join(folder, 'src/static/schemas/tools.json');
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, '{}');
    expect(run(folder, 'schema', '--check')).toMatchObject({
      code: 1,
      out: 'src/static/schemas/tools.json is not up to date: run npm run schema.\n',
    });
    expect(run(folder, 'schema').code).toBe(0);
    expect(readFileSync(path, 'utf8')).toBe(text);
  });

  it('take every good file and all content that is shipped', () => {
    for (const file of [...goodFiles, ...readContent(project).files]) {
      const validate = validators.get(kindOf(file.path))!;
      expect(validate(parse(file.text)), `${file.path} ${JSON.stringify(validate.errors)}`).toBe(true);
    }
  });

  it.each([
    'wrong-type',
    'missing-field',
    'unknown-field',
    'out-of-range',
    'not-in-list',
    'bad-form',
    'yaml-boolean-word',
    'number-with-comma',
  ])('refuse the bad example for %s', (code) => {
    const [file] = readContent(join(badFolder, code)).files;
    expect(validators.get(kindOf(file!.path))!(parse(file!.text))).toBe(false);
  });

  it('describe every field', () => {
    const visit = (node: unknown, path: string): void => {
      if (node === null || typeof node !== 'object') return;
      for (const [field, schema] of Object.entries((node as { properties?: object }).properties ?? {})) {
        const { description, $ref, anyOf } = schema as { description?: string; $ref?: string; anyOf?: { description?: string }[] };
        expect(description ?? $ref ?? anyOf?.[0]?.description, `${path} ${field}`).toBeTruthy();
      }
      for (const [key, inner] of Object.entries(node)) visit(inner, `${path}.${key}`);
    };
    for (const kind of kinds) visit(jsonSchema(kind), kind);
  });
});
