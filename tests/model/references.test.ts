import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { referencesIn } from '../../src/model/references.ts';
import { type Kind, kinds, schemas } from '../../src/model/schema/index.ts';
import { goodFiles } from './bad-content.ts';

const fileOf = (path: string) => {
  const file = goodFiles.find((candidate) => candidate.path === `content/${path}.yaml`)!;
  const kind = path.split('/')[0] as Kind;
  return { kind, value: schemas[kind].parse(parse(file.text)) };
};
const found = (path: string) => {
  const { kind, value } = fileOf(path);
  return referencesIn(schemas[kind], value)
    .map((reference) => `${reference.path.join('.')}${reference.isKey ? ' (key)' : ''} -> ${reference.kind}/${reference.id}`)
    .sort();
};

describe('the references of a file', () => {
  it('of a cause are its lists, keys, mixtures and nested fields', () => {
    expect(found('causes/split-hose')).toEqual([
      'conditions.cold-start (key) -> conditions/cold-start',
      'needs.ignition (key) -> traits/ignition',
      'recentWork.air-filter (key) -> recent-work/air-filter',
      'repair.parts.0.part -> parts/hose',
      'repair.setUps.0 -> set-ups/cover-off',
      'repair.source -> sources/common-practice',
      'repair.tools.0 -> tools/pliers',
      'scope -> scopes/all-cylinders',
      'shows.shakes-at-idle (key) -> symptoms/shakes-at-idle',
      'source -> sources/common-practice',
      'tellApart.0.from -> causes/worn-plugs',
      'trims -> trim-signatures/unmetered-air',
    ]);
    expect(found('causes/worn-plugs')).toEqual(
      expect.arrayContaining([
        'scope.one-cylinder (key) -> scopes/one-cylinder',
        'repair.torque.0.source -> sources/common-practice',
        'repair.spoils.0 -> checks/look-at-hoses',
      ]),
    );
  });

  it('of a tree are found at any depth', () => {
    expect(found('families/rough-idle')).toEqual([
      'monitors.0 -> monitors/misfire',
      'source -> sources/common-practice',
      'tree.0.branches.0.cause -> causes/split-hose',
      'tree.1.cause -> causes/worn-plugs',
    ]);
  });

  it('of a check and a group of codes include the keys of their tables', () => {
    expect(found('checks/read-plug-gap')).toEqual([
      'after.0 -> checks/look-at-hoses',
      'likelihood.worn-plugs (key) -> causes/worn-plugs',
      'needs.ignition (key) -> traits/ignition',
      'reading.source -> sources/common-practice',
      'source -> sources/common-practice',
      'tools.0 -> tools/pliers',
    ]);
    expect(found('codes/misfire-codes')).toEqual([
      'codes.P0301.evidence.worn-plugs (key) -> causes/worn-plugs',
      'family -> families/rough-idle',
      'source -> sources/common-practice',
    ]);
  });

  it('to a source leave out the place in it', () => {
    expect(found('terms/fuel-trim')).toEqual(['source -> sources/common-practice']);
  });
});

/** Every place of a schema that carries a reference, by walking the JSON Schema instead of the zod one. */
describe('every field that names a folder in its description', () => {
  it('carries the reference of that folder', async () => {
    const { z } = await import('zod');
    for (const kind of kinds) {
      const visit = (node: unknown, path: string): void => {
        if (node === null || typeof node !== 'object') return;
        const { description, reference } = node as { description?: string; reference?: string };
        const [, folder] = description?.match(/^Id of a file in content\/([a-z-]+)\/\.$/) ?? [];
        if (folder) expect(reference, `${kind} ${path}`).toBe(folder);
        if (reference) expect(kinds, `${kind} ${path}`).toContain(reference);
        for (const [key, inner] of Object.entries(node)) visit(inner, `${path}.${key}`);
      };
      visit(z.toJSONSchema(schemas[kind], { io: 'input' }), '');
    }
  });
});
