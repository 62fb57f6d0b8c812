import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readContent } from '../../scripts/content/read.ts';
import { loadContent } from '../../src/model/load.ts';
import { schemas } from '../../src/model/schema/index.ts';
import { copyOfProject, project, run } from './command-line.ts';

const kinds = {
  family: 'families',
  cause: 'causes',
  check: 'checks',
  symptom: 'symptoms',
  tool: 'tools',
  part: 'parts',
  caution: 'cautions',
  'set-up': 'set-ups',
  term: 'terms',
  source: 'sources',
} as const;

describe('npm run new', () => {
  it('starts a file of each kind, and what it writes has no error', () => {
    const folder = copyOfProject();
    for (const kind of Object.keys(kinds)) {
      const { code, out, err } = run(folder, 'new', kind, `tried-out-${kind}`);
      expect({ code, err }).toEqual({ code: 0, err: '' });
      expect(out).toContain(`content/${kinds[kind as keyof typeof kinds]}/tried-out-${kind}.yaml written from the template.`);
    }
    const { files } = readContent(folder);
    const mine = loadContent(files).problems.filter((problem) => problem.file.includes('tried-out') && problem.severity === 'error');
    expect(mine).toEqual([]);
    expect(readFileSync(join(folder, 'content/causes/tried-out-cause.yaml'), 'utf8')).toContain('\ntitle: Tried out cause\n');
  });

  it('says when something of nearly that name is there', () => {
    const folder = copyOfProject();
    expect(run(folder, 'new', 'cause', 'worn-spark-plug').out).toContain('There is content/causes/worn-spark-plugs.yaml too');
  });

  it('never touches a file that exists', () => {
    const folder = copyOfProject();
    const path = join(folder, 'content/causes/worn-spark-plugs.yaml');
    writeFileSync(path, 'mine');
    expect(run(folder, 'new', 'cause', 'worn-spark-plugs')).toMatchObject({ code: 2, out: '' });
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });

  it.each([
    ['no words', [], 'Give a kind and an id.'],
    ['no id', ['cause'], 'Give a kind and an id.'],
    ['too many words', ['cause', 'a', 'b'], 'Give a kind and an id.'],
    ['an unknown kind', ['caus', 'my-cause'], 'caus is not a kind. Did you mean cause?'],
    ['the name of a folder for a kind', ['causes', 'my-cause'], 'causes is not a kind. Did you mean cause?'],
    ['a kind from the prototype', ['constructor', 'x'], 'constructor is not a kind.'],
    [
      'an id with capitals and spaces',
      ['cause', 'My Cause'],
      '"My Cause" is not an id: lower-case words joined by hyphens, 60 characters at most. Use my-cause?',
    ],
    ['an id with the ending', ['cause', 'my-cause.yaml'], 'Use my-cause-yaml?'],
    ['a path for an id', ['cause', '../../my-cause'], 'is not an id'],
    ['an absolute path', ['cause', '/tmp/my-cause'], 'is not an id'],
    ['a template for an id', ['cause', '_template'], 'is not an id'],
    ['an id that starts with a digit', ['cause', '4-plugs'], 'is not an id'],
    ['two hyphens in a row', ['cause', 'a--b'], 'is not an id'],
    ['a long id', ['cause', 'a'.repeat(61)], 'is not an id'],
    ['an unknown option', ['cause', 'a', '--force'], "Unknown option '--force'"],
    ['a place without templates', ['cause', 'a', '--root', 'tests/good'], 'run this from the top of the project'],
  ])('answers %s with one line and exit code 2', (_name, given, says) => {
    const before = readdirSync(join(project, 'content/causes')).length;
    const { code, out, err } = run(project, 'new', ...given);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
    expect(err).toContain('Usage: npm run new');
    expect(err).not.toContain('    at ');
    expect(readdirSync(join(project, 'content/causes')).length).toBe(before);
  });
});

/** A field for rare cases, which the example is not, stands as a line that one takes the mark away from. */
const shownAsComment = (field: string, text: string): boolean => new RegExp(`^ *# ${field}: \\S`, 'm').test(text);

describe('a template', () => {
  it.each(Object.values(kinds))('of %s names its schema in the first line and shows every field', (kind) => {
    const text = readFileSync(join(project, `content/${kind}/_template.yaml`), 'utf8');
    const [modeline] = text.split('\n');
    const [, schema] = modeline!.match(/^# yaml-language-server: \$schema=(.*)$/)!;
    expect(existsSync(join(project, 'content', kind, schema!))).toBe(true);
    const value = parse(text) as object;
    const missing = Object.keys(schemas[kind].def.shape).filter((field) => !(field in value) && !shownAsComment(field, text));
    expect(missing).toEqual([]);
    expect(schemas[kind].safeParse(value).success).toBe(true);
  });

  it('of a cause shows every field of a repair', () => {
    const text = readFileSync(join(project, 'content/causes/_template.yaml'), 'utf8');
    const { repair } = parse(text) as { repair: object };
    const fields = Object.keys(schemas.causes.def.shape.repair.def.shape);
    expect(fields.filter((field) => !(field in repair) && !shownAsComment(field, text))).toEqual([]);
  });

  it('is no content', () => {
    expect(loadContent([{ path: 'content/causes/_template.yaml', text: 'title: [' }]).problems).toEqual([]);
  });
});
