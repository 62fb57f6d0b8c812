import { describe, expect, it } from 'vitest';
import { cautionsFor, type HazardousWork } from '../../src/model/cautions.ts';
import type { Content } from '../../src/model/schema/index.ts';
import type { CautionFile } from '../../src/model/schema/vocabulary.ts';

const caution = (signal: CautionFile['signal'], appliesTo: Partial<CautionFile['appliesTo']> = {}) => ({
  signal,
  appliesTo: { engineStates: [], tools: [], setUps: [], parts: [], words: [], ...appliesTo },
});
const setUp = (setUps: string[], rest: { tools?: string[]; hazards?: string[]; steps?: string[] } = {}) => ({
  setUps,
  tools: [],
  hazards: [],
  steps: [],
  ...rest,
});

const content = {
  cautions: new Map(
    Object.entries({
      'named-only': caution('CAUTION'),
      'moving-parts': caution('WARNING', { engineStates: ['running'] }),
      'hot-parts': caution('CAUTION', { engineStates: ['warm'] }),
      'cold-only': caution('NOTICE', { engineStates: ['cold'] }),
      'falling-car': caution('DANGER', { setUps: ['car-raised'] }),
      'spray-can': caution('WARNING', { tools: ['cleaner'] }),
      'hammer-eyes': caution('CAUTION'),
      'sharp-gasket': caution('NOTICE', { parts: ['gasket'] }),
      'fuel-spray': caution('WARNING', { words: ['fuel line', 'jack'] }),
    }),
  ),
  tools: new Map(Object.entries({ cleaner: { hazards: [] }, hammer: { hazards: ['hammer-eyes'] } })),
  'set-ups': new Map(
    Object.entries({
      'undertray-off': setUp(['car-raised'], { hazards: ['named-only'] }),
      'car-raised': setUp([], { tools: ['hammer'], steps: ['Put the car on stands.'] }),
      'tank-down': setUp(['undertray-off'], { steps: ['Open the Fuel-line.'] }),
      'round-a': setUp(['round-b']),
      'round-b': setUp(['round-a']),
    }),
  ),
} as unknown as Content;

const work = (given: Partial<HazardousWork>): HazardousWork => ({ hazards: [], tools: [], setUps: [], steps: [], ...given });

describe('the cautions of a piece of work', () => {
  it('are none for harmless work', () => {
    expect(cautionsFor(content, work({ engineState: 'any', steps: ['Read the number.'] }))).toEqual([]);
  });

  it('are those that it names, and no id that does not exist', () => {
    expect(cautionsFor(content, work({ hazards: ['named-only', 'unheard-of'] }))).toEqual(['named-only']);
  });

  it('follow the engine state; running work is warm work too', () => {
    expect(cautionsFor(content, work({ engineState: 'running' }))).toEqual(['moving-parts', 'hot-parts']);
    expect(cautionsFor(content, work({ engineState: 'warm' }))).toEqual(['hot-parts']);
    expect(cautionsFor(content, work({ engineState: 'cold' }))).toEqual(['cold-only']);
  });

  it('follow its tools, and the hazards that the tools name', () => {
    expect(cautionsFor(content, work({ tools: ['cleaner', 'hammer'] }))).toEqual(['spray-can', 'hammer-eyes']);
  });

  it('follow its set-ups down to those that they stand on, with their hazards, tools and wording', () => {
    expect(cautionsFor(content, work({ setUps: ['tank-down'] }))).toEqual(['falling-car', 'fuel-spray', 'hammer-eyes', 'named-only']);
  });

  it('follow its parts', () => {
    expect(cautionsFor(content, work({ parts: [{ part: 'gasket' }] }))).toEqual(['sharp-gasket']);
  });

  it('follow whole words of its steps, in any case, across hyphens and line ends', () => {
    for (const step of ['Open the FUEL\nline.', 'fuel-line', 'Use the jack (rated).'])
      expect(cautionsFor(content, work({ steps: [step] }))).toEqual(['fuel-spray']);
    for (const step of ['Fuel lines run here.', 'Open the water jacket.', 'Refuel, line by line.'])
      expect(cautionsFor(content, work({ steps: [step] }))).toEqual([]);
  });

  it('do not join words of two steps into a phrase', () => {
    expect(cautionsFor(content, work({ steps: ['Smell for fuel', 'line up the marks'] }))).toEqual([]);
  });

  it('come with the gravest signal word first, then by id', () => {
    expect(
      cautionsFor(content, work({ engineState: 'running', setUps: ['car-raised'], tools: ['cleaner'], parts: [{ part: 'gasket' }] })),
    ).toEqual(['falling-car', 'moving-parts', 'spray-can', 'hammer-eyes', 'hot-parts', 'sharp-gasket']);
  });

  it('end also when set-ups stand on each other', () => {
    expect(cautionsFor(content, work({ setUps: ['round-a'] }))).toEqual([]);
  });
});
