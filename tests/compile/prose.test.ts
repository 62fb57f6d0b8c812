import { expect, test } from 'vitest';
import { jsonForScript } from '../../src/compile/json-for-script.ts';
import { proseCutter } from '../../src/compile/prose.ts';

const term = (title: string, also: string[] = []) => ({ title, also, means: `${title} is this. And more.` });
const cut = proseCutter(
  new Map([
    ['trim', term('Trim')],
    ['fuel-trim', term('Fuel trim', ['fuel correction'])],
  ]),
);

test('the longest term wins, in any case and number, and only its first mention is linked', () => {
  const seen = new Set<string>();
  expect(cut('Fuel trims and a trim, then fuel trim.', seen)).toEqual([
    { text: 'Fuel trims', term: { href: '/terms/fuel-trim/', means: 'Fuel trim is this.' } },
    { text: ' and a ' },
    { text: 'trim', term: { href: '/terms/trim/', means: 'Trim is this.' } },
    { text: ', then fuel trim.' },
  ]);
  expect(cut('fuel correction', seen)).toEqual([{ text: 'fuel correction' }]);
});

test('a part of a word is no term', () => {
  expect(cut('trimmed, re-trim, untrimmed', new Set())).toEqual([{ text: 'trimmed, re-trim, untrimmed' }]);
});

test('initials are a term in capitals only: one can do without the CAN', () => {
  const cutNetwork = proseCutter(new Map([['network', term('Network', ['CAN'])]]));
  expect(cutNetwork('Can it? One can.', new Set())).toEqual([{ text: 'Can it? One can.' }]);
  expect(cutNetwork('CAN', new Set())).toEqual([{ text: 'CAN', term: { href: '/terms/network/', means: 'Network is this.' } }]);
});

test('the pieces give back the text', () => {
  const text = 'A <b>fuel trim</b> & a trim';
  expect(
    cut(text, new Set())
      .map((piece) => piece.text)
      .join(''),
  ).toBe(text);
});

test('JSON in a script element cannot end it', () => {
  const text = jsonForScript({ a: '</script><!--\u2028' });
  expect(text).not.toMatch(/[<>\u2028]/);
  expect(JSON.parse(text)).toEqual({ a: '</script><!--\u2028' });
});
