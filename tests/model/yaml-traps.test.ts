import { describe, expect, it } from 'vitest';
import { loadContent } from '../../src/model/load.ts';
import { textReport } from '../../src/model/report.ts';
import { goodFiles, goodText, overlay, problemsWith } from './bad-content.ts';

const tool = 'content/tools/pliers.yaml';
const cause = 'content/causes/worn-plugs.yaml';
const check = 'content/checks/look-at-hoses.yaml';
const family = 'content/families/rough-idle.yaml';

/** The problems when `from` is replaced by `to` in a good file, as "line:column code what mend". */
function faults(path: string, from: string, to: string): string[] {
  const text = goodText(path);
  if (!text.includes(from)) throw new Error(`${path} has no ${from}`);
  return problemsWith(path, text.replace(from, to)).map((p) => `${p.line}:${p.column} ${p.code} ${p.what} ${p.mend}`);
}

describe('a trap of YAML', () => {
  it.each([
    [
      'no for false',
      tool,
      'owned: true',
      'owned: no',
      '3:8 yaml-boolean-word "owned" is the word "no"; it must be true or false. Write false.',
    ],
    [
      'On for true',
      tool,
      'owned: true',
      'owned: On',
      '3:8 yaml-boolean-word "owned" is the word "On"; it must be true or false. Write true.',
    ],
    [
      'a quoted true',
      tool,
      'owned: true',
      'owned: "true"',
      '3:8 wrong-type "owned" is "true"; it must be true or false. Correct it, or its indentation. The schema says: true if nearly every home mechanic has it.',
    ],
    [
      'a decimal comma',
      cause,
      'holds: 0.95',
      'holds: 0,95',
      '20:10 number-with-comma "repair > holds" is "0,95"; a number has a point and no thousands mark. Write 0.95.',
    ],
    [
      'a thousands mark',
      cause,
      'money: 2',
      'money: 1,200',
      '10:10 number-with-comma "repair > money" is "1,200"; a number has a point and no thousands mark. Write 1200.',
    ],
    [
      'a comma inside braces',
      tool,
      'high: 20}',
      'high: 9,200}',
      '4:25 number-with-comma In "price", the number 200 stands as a field of its own: a comma inside { } ends a value. Write numbers with a point and without thousands marks.',
    ],
    [
      'a quoted number',
      cause,
      'money: 2',
      'money: "2"',
      '10:10 wrong-type "repair > money" is the text "2"; it must be a number. Take the quotation marks away.',
    ],
    [
      'a percentage',
      cause,
      'holds: 0.95',
      'holds: 95%',
      '20:10 wrong-type "repair > holds" is "95%"; it must be a number or one of certain, probable, expected, fifty-fifty, uncertain, improbable, impossible. Write 0.95 for a share or a chance.',
    ],
    [
      'not a number',
      cause,
      'money: 2',
      'money: .nan',
      '10:10 wrong-type "repair > money" is NaN; it must be a number. Correct it, or its indentation. The schema says: Consumables of one performance (not parts, not tools), US dollars.',
    ],
    [
      'text that reads as a number',
      tool,
      'title: Pliers',
      'title: 12',
      '1:8 wrong-type "title" is 12; it must be text. Put it into quotation marks: "12".',
    ],
    [
      'text that reads as true',
      tool,
      'title: Pliers',
      'title: true',
      '1:8 wrong-type "title" is true; it must be text. Put it into quotation marks: "true".',
    ],
    [
      'a step with a colon',
      check,
      '- Bend every',
      '- Then: bend every',
      '9:5 wrong-type "steps > entry 1" is a map; it must be text. Put text that contains ": " into quotation marks.',
    ],
    [
      'text for a list',
      check,
      'setUps: [cover-off]',
      'setUps: cover-off',
      '5:9 wrong-type "setUps" is "cover-off"; it must be a list. Start each entry with "- " on a line of its own.',
    ],
    [
      'an empty value',
      tool,
      'title: Pliers',
      'title:',
      '1:1 wrong-type "title" is empty; it must be text. Write it, or remove the field if it is not needed. The schema says: One line of text, 160 characters at most.',
    ],
    [
      'a merge key',
      tool,
      'owned: true',
      'owned: true\n<<: {owned: false}',
      '4:1 yaml-alias Merge keys (<<) are not used in content. Write the fields out where they are needed.',
    ],
    [
      'an alias',
      tool,
      'title: Pliers\nwhat: A pair with long jaws.',
      'title: &t Pliers\nwhat: *t',
      '1:11 yaml-alias Anchors (&name) and aliases (*name) are not used in content. Write the value out where it is needed; put text that starts with "&" or "*" into quotation marks.',
    ],
    ['a tab after spaces', tool, 'owned: true', '  \towned: true', '3:1 yaml-tab The line is indented with a tab. Indent with two spaces.'],
    [
      'a directive below a comment',
      tool,
      'title: Pliers',
      '# Pliers, all kinds\n\n%YAML 1.2\n---\ntitle: Pliers',
      '3:1 yaml-tag Content has no directives (%NAME). Delete the line.',
    ],
    [
      'shares of patterns that do not make 1',
      'content/scopes/all-cylinders.yaml',
      'single: 0.1,',
      'single: 0.12,',
      '3:1 bad-value "cylinderPatterns": must sum to 1. Correct it. The schema says: P(pattern of misfiring cylinders | a cause of this scope).',
    ],
    [
      'a second document',
      tool,
      'owned: true',
      '---\nowned: true',
      '3:1 yaml-syntax A second document starts here. Delete the line "---", or move what follows into a file of its own.',
    ],
    [
      'YAML 1.1',
      tool,
      'title: Pliers',
      '%YAML 1.1\n---\ntitle: Pliers',
      '1:1 yaml-tag Content has no directives (%NAME). Delete the line.',
    ],
    [
      'a list as key',
      tool,
      'owned: true',
      '? [owned]\n: true',
      '3:3 yaml-syntax A key is not plain text. Keys are words: delete the "?", the brackets or the mark before it.',
    ],
    [
      'a reserved character',
      tool,
      'title: Pliers',
      'title: @pliers',
      '1:8 yaml-syntax YAML cannot read this: Plain value cannot start with reserved character @. Put the text into quotation marks.',
    ],
    [
      'an open quotation mark',
      tool,
      'Grip the clamp, not the hose.',
      '"Grip the clamp.',
      '5:6 yaml-syntax This quotation mark is not closed. Close it, or quote the whole text.',
    ],
    [
      'an escape for a hidden character',
      tool,
      'title: Pliers',
      'title: "Pliers\\u202E"',
      '1:8 unsafe-text An escape in this text makes the invisible character U+202E. Delete it.',
    ],
  ])('is told apart: %s', (_name, path, from, to, expected) => {
    expect(faults(path, from, to)[0]).toBe(expected);
  });

  it('is told once, though YAML stumbles over it twice', () => {
    expect(faults(tool, 'owned: true', '  \towned: true')).toHaveLength(1);
  });

  it('an empty file and a file of comments are no map of fields', () => {
    for (const text of ['', '# nothing yet\n', '\n\n'])
      expect(problemsWith(tool, text).map((p) => p.what)[0]).toBe('The file is empty; it must be a map of fields.');
  });

  it('a branch of a cause tree is read as what it most resembles', () => {
    expect(faults(family, '{cause: worn-plugs, share: 0.6}', '{cause: worn-plugs}')).toEqual([
      '15:5 missing-field The field "tree > entry 2 > share" is missing. Add it. The schema says: Share among its siblings; siblings sum to 1.',
    ]);
    expect(faults(family, 'title: Air', 'titel: Air').map((line) => line.slice(0, 60))).toEqual([
      '11:5 missing-field The field "tree > entry 1 > title" is mis',
      '11:5 unknown-field In "tree > entry 1", the field "titel" is',
    ]);
  });
});

describe('positions', () => {
  const spoiled = goodText(tool).replace('owned: true', 'owned: yes');
  const at = (text: string) => {
    const found = problemsWith(tool, text).find((p) => p.code === 'yaml-boolean-word')!;
    return `${found.line}:${found.column}+${found.length}`;
  };

  it('are the same with LF, CRLF and CR, and with a byte-order mark', () => {
    expect(at(spoiled)).toBe('3:8+3');
    expect(at(spoiled.replaceAll('\n', '\r\n'))).toBe('3:8+3');
    expect(at(spoiled.replaceAll('\n', '\r'))).toBe('3:8+3');
    expect(at(`\uFEFF${spoiled}`)).toBe('3:8+3');
    expect(at(`\uFEFF${spoiled.replaceAll('\n', '\r\n')}`)).toBe('3:8+3');
  });

  it('count UTF-16 units as editors do, and carets stand under what is seen', () => {
    const text = goodText(tool).replace('price: {low: 8, high: 20}', 'price: {low: 8, "höhe 🔧": 1, high: 20}');
    const files = overlay(goodFiles, [{ path: tool, text }]);
    const { problems } = loadContent(files);
    expect(problems[0]).toMatchObject({ code: 'unknown-field', line: 4, column: 17, length: 9 });
    expect(textReport(problems, files)).toContain('4 | price: {low: 8, "höhe 🔧": 1, high: 20}\n    |                 ^^^^^^^^^\n');
  });

  it('of a fault far to the right are shown in a window of the line', () => {
    const text = goodText(tool).replace('price: {low: 8, high: 20}', `price: {low: 8, ${' '.repeat(300)}hihg: 20}`);
    const files = overlay(goodFiles, [{ path: tool, text }]);
    const lines = textReport(loadContent(files).problems, files).split('\n');
    const frame = lines.findIndex((line) => line.includes('hihg: 20'));
    expect(lines[frame + 1]!.indexOf('^')).toBe(lines[frame]!.indexOf('hihg'));
    expect(lines[frame]!.length).toBeLessThan(140);
  });
});

describe('many faults', () => {
  it('of one run are all reported: a hundred in two files', () => {
    const steps = Array.from({ length: 60 }, (_, i) => `wrong-${i}: 1`).join('\n');
    const others = Array.from({ length: 40 }, (_, i) => `wrong-${i}: 1`).join('\n');
    const { problems } = loadContent(
      overlay(goodFiles, [
        { path: tool, text: `${goodText(tool)}${steps}\n` },
        { path: check, text: `${goodText(check)}${others}\n` },
      ]),
    );
    expect(problems).toHaveLength(100);
    expect(new Set(problems.map((p) => `${p.file}:${p.line}`)).size).toBe(100);
  });

  it('come sorted by file, line and column', () => {
    const { problems } = loadContent(overlay(goodFiles, [{ path: tool, text: 'b: 1\na: 2\n' }]));
    const keys = problems.filter((p) => p.file === tool).map((p) => p.line * 1000 + p.column);
    expect(keys).toEqual([...keys].sort((a, b) => a - b));
  });
});

describe('the report', () => {
  it('never prints a character that could move the cursor or hide text', () => {
    const text = `title: "a\\e[31m"\nwh\u202Eat: 1\n"x\\u0007": 1\n`;
    const files = overlay(goodFiles, [{ path: tool, text }]);
    expect(textReport(loadContent(files).problems, files)).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202A-\u202E]/);
  });
});
