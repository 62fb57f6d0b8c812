import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { changedNumbers } from '../../scripts/diff/changed-numbers.ts';
import { reviewMarkdown } from '../../scripts/diff/markdown.ts';
import { goodFolder } from '../model/bad-content.ts';
import { copyOfProject, project, run } from './command-line.ts';

/** A copy of the good world in a repository with one commit, and a way to change one of its files. */
function repository() {
  const folder = copyOfProject(goodFolder);
  const git = (...given: string[]) =>
    execFileSync('git', ['-c', 'user.name=test', '-c', 'user.email=test@example.invalid', ...given], {
      cwd: folder,
      stdio: 'pipe',
    }).toString();
  git('init', '-q', '-b', 'main');
  git('add', 'content');
  git('commit', '-q', '-m', 'start');
  const change = (path: string, from: string, to: string) => {
    const full = join(folder, 'content', path);
    const text = readFileSync(full, 'utf8');
    if (!text.includes(from)) throw new Error(`${path} has no ${from}`);
    writeFileSync(full, text.replace(from, to));
  };
  return { folder, git, change };
}

describe('npm run diff', { timeout: 60_000 }, () => {
  it('says so when nothing moved', () => {
    const { folder } = repository();
    expect(run(folder, 'diff', 'main')).toEqual({ code: 0, out: '## Against main: nothing moved\n\nNothing moved.\n', err: '' });
  });

  it('compares with a past that breaks a rule younger than it, where no number hangs on that', () => {
    const { folder, git, change } = repository();
    change('checks/look-at-hoses.yaml', 'setUps: [cover-off]\n', '');
    git('commit', '-q', '-a', '-m', 'before the rule');
    change('checks/look-at-hoses.yaml', 'attendedMinutes: 5\n', 'attendedMinutes: 5\nharmless: A look, engine off.\n');
    const { code, out } = run(folder, 'diff', 'main');
    expect({ code, out }).toEqual({ code: 0, out: '## Against main: nothing moved\n\nNothing moved.\n' });
    change('checks/look-at-hoses.yaml', 'harmless: A look, engine off.\n', '');
    expect(run(folder, 'diff', 'main').err).toContain('harm-undecided');
  });

  it('does not call a change of wording a move, nor a price that changes no order and no figure', () => {
    const { folder, git, change } = repository();
    // So dear already that nobody would do it, and no bound hangs on it.
    change('checks/look-at-hoses.yaml', 'attendedMinutes: 5', 'attendedMinutes: 500');
    git('commit', '-q', '-a', '-m', 'dear');
    change('checks/look-at-hoses.yaml', 'Few splits hide.', 'Splits seldom hide.');
    change('checks/look-at-hoses.yaml', 'attendedMinutes: 500', 'attendedMinutes: 600');
    const { out } = run(folder, 'diff', 'main');
    expect(out).toContain('Nothing moved.');
    expect(out).toContain('| `content/checks/look-at-hoses.yaml` | attendedMinutes | 500 | 600 | common-practice |');
  });

  it('shows order and figures side by side, and each changed number with its source', () => {
    const { folder, change } = repository();
    change('causes/split-hose.yaml', 'attendedMinutes: 15', 'attendedMinutes: 120');
    change('causes/worn-plugs.yaml', 'low: 20', 'low: 18');
    const { code, out } = run(folder, 'diff', 'main');
    expect(code).toBe(0);
    expect(out).toContain('## Against main: one family moved');
    expect(out).toContain('### Rough idle, P0300');
    expect(out).toContain(
      '| 1 | Repair: Replace the hose | Look at the hoses | new |\n| 2 | Repair: Replace the plugs | Measure the plug gap | new |',
    );
    expect(out).toMatch(/\| expected total cost \| \$\d+\.\d\d \| \$\d+\.\d\d \| \+\$\d+\.\d\d \|/);
    expect(out).toMatch(/\| solved for at most \$50 \| [\d.]+ % \| [\d.]+ % \| /);
    expect(out).toMatch(/\| proven gap \| /);
    expect(out).toMatch(/\| first step stays first under doubt \| /);
    expect(out).toContain('| `content/causes/split-hose.yaml` | repair.attendedMinutes | 15 | 120 | common-practice |');
    expect(out).toContain(
      '| `content/causes/worn-plugs.yaml` | repair.torque.M14 plug in aluminium.newtonMetres.low | 20 | 18 | common-practice |',
    );
    expect(run(folder, 'diff', 'main').out).toBe(out);
  });

  it('names new and lost causes, families and files', () => {
    const { folder, change } = repository();
    change('families/rough-idle.yaml', '  - {cause: worn-plugs, share: 0.6}\n', '');
    change('families/rough-idle.yaml', 'share: 0.4', 'share: 1');
    const shrunk = run(folder, 'diff', 'main').out;
    expect(shrunk).toContain('Lost causes: `worn-plugs`.');
    const code = readFileSync(join(folder, 'content/codes/misfire-codes.yaml'), 'utf8');
    const family = readFileSync(join(folder, 'content/families/rough-idle.yaml'), 'utf8');
    writeFileSync(join(folder, 'content/families/rough-when-cold.yaml'), family.replace('Rough idle', 'Rough when cold'));
    writeFileSync(
      join(folder, 'content/codes/cold-codes.yaml'),
      code.replaceAll('P030', 'P039').replace('family: rough-idle', 'family: rough-when-cold'),
    );
    const grown = run(folder, 'diff', 'main').out;
    expect(grown).toContain('### Rough when cold, P0390 (new)');
    expect(grown).toContain('### New files\n\n- `content/codes/cold-codes.yaml`\n- `content/families/rough-when-cold.yaml`');
  });

  it('compares with any commit and does not touch the work tree', () => {
    const { folder, git, change } = repository();
    change('causes/split-hose.yaml', 'attendedMinutes: 15', 'attendedMinutes: 90');
    git('commit', '-qam', 'dearer');
    const status = git('status', '--porcelain');
    expect(run(folder, 'diff', 'HEAD').out).toContain('Nothing moved.');
    expect(run(folder, 'diff', 'HEAD~1').out).toContain('| repair.attendedMinutes | 15 | 90 | common-practice |');
    expect(git('status', '--porcelain')).toBe(status);
  });

  it('says which state has errors, and exits 1', () => {
    const { folder, change } = repository();
    change('tools/pliers.yaml', 'owned: true', 'owned: yes');
    const { code, out, err } = run(folder, 'diff', 'main');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('The content here has errors, so its orders cannot be computed. 22 files read: 1 error');
    expect(err).toContain('yaml-boolean-word');
  });

  it.each([
    ['an unknown ref', ['no-such-branch'], 'git knows no commit "no-such-branch".'],
    ['an option for a ref', ['--', '--output=x'], 'git knows no commit "--output=x".'],
    ['a path for a ref', ['main:content'], 'git knows no commit "main:content".'],
    ['no ref', [], 'Give one git ref to compare with'],
    ['two refs', ['main', 'main'], 'Give one git ref to compare with'],
    ['a budget that is no number', ['main', '--nodes', 'many'], '--nodes many is not a whole number.'],
  ])('answers %s with one line and exit code 2', (_name, given, says) => {
    const { code, out, err } = run(project, 'diff', ...given);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
    expect(err).not.toContain('    at ');
  });

  it('answers a folder without git with one line and exit code 2', () => {
    const { folder } = repository();
    rmSync(join(folder, '.git'), { recursive: true });
    expect(run(folder, 'diff', 'main')).toMatchObject({ code: 2 });
  });
});

describe('changed numbers', () => {
  const at = (text: string) => [{ path: 'content/checks/a.yaml', text }];

  it('include words of the verbal scale, and keep their place when an entry comes before them', () => {
    const before = at('outcomes: [{id: a, when: {below: 1}}]\nlikelihood: {x: {a: probable}}\nsource: s 1\n');
    const after = at('outcomes: [{id: b, when: {below: 0}}, {id: a, when: {below: 1}}]\nlikelihood: {x: {a: 0.9}}\nsource: s 2\n');
    expect(changedNumbers(before, after)).toEqual([
      { file: 'content/checks/a.yaml', place: 'likelihood.x.a', before: 'probable', after: '0.9', source: 's 2' },
      { file: 'content/checks/a.yaml', place: 'outcomes.b.when.below', before: null, after: '0', source: 's 2' },
    ]);
  });

  it('name the nearest source', () => {
    const [change] = changedNumbers(
      at('torque: [{what: M6, low: 8, source: book}]\nsource: s\n'),
      at('torque: [{what: M6, low: 9, source: book p. 4}]\nsource: s\n'),
    );
    expect(change).toMatchObject({ place: 'torque.M6.low', source: 'book p. 4' });
  });
});

describe('the Markdown', () => {
  const plan = {
    title: 'Rough idle',
    code: 'P0300',
    steps: ['Look.'],
    causes: new Map<string, number>(),
    expectedCost: 1,
    gap: 0,
    solvedAt: [0, 0, 0, 0, 0],
    firstStays: 1,
  };

  it('fits a comment: what has no room is counted, and stands in the overview', () => {
    const moves = Array.from({ length: 200 }, (_, index) => ({
      family: `f${index}`,
      before: null,
      after: { ...plan, title: `Family ${index}` },
    }));
    const text = reviewMarkdown({ base: 'main', moves, numbers: [], newFiles: [], lostFiles: [] });
    expect(text.length).toBeLessThan(61_000);
    expect(text).toMatch(/\n\d+ more families moved; /);
    expect(text).toContain('| Family 199 |  | $1.00 |  | Look. |');
  });

  it('lets no text of a stranger end a table or become markup', () => {
    const hostile = { ...plan, title: '<img src=x> | @everyone', steps: ['a | b\n# c', '[x](javascript:1)'] };
    const text = reviewMarkdown({
      base: 'main',
      moves: [{ family: 'f', before: null, after: hostile }],
      numbers: [],
      newFiles: [],
      lostFiles: [],
    });
    expect(text).toContain('### \\<img src=x\\> \\| \\@everyone, P0300 (new)');
    expect(text).toContain('| 1 |  | a \\| b \\# c |  |');
    expect(text).toContain('\\[x\\]\\(javascript:1\\)');
  });
});
