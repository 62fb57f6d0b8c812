import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exportText, readSaved, readSavedText, saved } from '../../src/job/saved/saved.ts';
import { savedSchema } from '../../src/job/saved/schema.ts';
import { validate } from '../../src/job/saved/validate.ts';
import { newJob } from '../../src/job/state.ts';
import { anyJob } from './any-job.ts';

const accepts = new Ajv2020({ strict: false, allErrors: false }).compile(savedSchema);
const says = (text: string) => {
  const reading = readSavedText(text);
  return reading.ok ? 'read' : reading.says;
};

describe('export and import', () => {
  test('any job comes back as it was', () => {
    fc.assert(
      fc.property(anyJob, (job) => {
        const reading = readSavedText(exportText(job, 'hash'));
        expect(reading).toMatchObject({ ok: true, note: null });
        // Through JSON, which knows no difference between -0 and 0.
        if (reading.ok) expect(reading.saved.job).toEqual(JSON.parse(JSON.stringify(job)));
      }),
    );
  });

  test('what is exported fits the published schema, by an independent validator', () => {
    fc.assert(
      fc.property(anyJob, (job) => {
        expect(accepts(JSON.parse(exportText(job, 'hash'))), JSON.stringify(accepts.errors)).toBe(true);
      }),
    );
  });

  test('our reading of the schema agrees with an independent validator on damaged jobs', () => {
    const damage = fc.record({
      path: fc.array(fc.nat(40), { minLength: 1, maxLength: 5 }),
      value: fc.jsonValue({ maxDepth: 1 }),
      drop: fc.boolean(),
    });
    let refused = 0;
    fc.assert(
      fc.property(anyJob, damage, (job, { path, value, drop }) => {
        const copy = JSON.parse(exportText(job, 'hash'));
        let place = copy;
        path.forEach((step, index) => {
          if (typeof place !== 'object' || place === null) return;
          const keys = Object.keys(place);
          if (keys.length === 0) return;
          const key = keys[step % keys.length]!;
          if (index < path.length - 1 && typeof place[key] === 'object' && place[key] !== null) place = place[key];
          else if (drop && !Array.isArray(place)) delete place[key];
          else place[key] = value;
        });
        const faults = validate(copy, savedSchema);
        expect(faults.length === 0, JSON.stringify({ faults, other: accepts.errors })).toBe(accepts(copy));
        if (faults.length > 0) refused += 1;
      }),
      { numRuns: 3000 },
    );
    expect(refused).toBeGreaterThan(500);
  });
});

describe('hostile and damaged files', () => {
  const good = saved(newJob('a-job', 1), 'hash');

  test.each([
    ['', 'not JSON'],
    ['{"form": "lampwise-job", "version": 1, "job"', 'not JSON, or it is cut off'],
    ['[]', 'no saved job'],
    ['"text"', 'no saved job'],
    ['{}', 'no saved job'],
    ['{"form":"lampwise-job","version":"1"}', 'no saved job'],
    ['{"form":"lampwise-job","version":1}', 'lacks "content"'],
    [JSON.stringify({ ...good, version: 7 }), 'saved in form 7, this page reads up to 1'],
    [JSON.stringify({ ...good, extra: 1 }), 'unknown key "extra"'],
    [JSON.stringify({ ...good, job: { ...good.job, nextEntry: 'x' } }), 'job.nextEntry must be a whole number'],
    [JSON.stringify({ ...good, job: { ...good.job, timeline: [{ kind: 'hack' }] } }), 'job.timeline[0] is of no known kind'],
    [
      JSON.stringify({ ...good, job: { ...good.job, inputs: { ...good.job.inputs, symptoms: { '<img src=x>': 'present' } } } }),
      'key of a form that is not allowed: "<img src=x>"',
    ],
    [JSON.stringify(good).replace('"traits":{}', '"traits":{"__proto__":"x"}'), 'key of a form that is not allowed: "__proto__"'],
    ['x'.repeat(2_000_001), 'far larger than any job'],
    ['['.repeat(200_000), 'not JSON'],
  ])('%#: said in one sentence, nothing changed', (text, expected) => {
    expect(says(text)).toContain(expected);
    expect(says(text)).toContain('Nothing was changed.');
  });

  test('entries that contradict each other are refused', () => {
    const entry = { kind: 'aside', action: 'a', id: 1, at: 0, note: '' } as const;
    expect(says(JSON.stringify(saved({ ...newJob('a', 1), timeline: [entry, entry], nextEntry: 2 }, '')))).toContain('the same number');
    expect(says(JSON.stringify(saved({ ...newJob('a', 1), timeline: [entry], nextEntry: 1 }, '')))).toContain('not above');
  });

  test('whatever the text, reading does not throw', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        readSavedText(text);
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.anything(), (value) => {
        readSaved(value);
      }),
    );
  });

  test('a file with thousands of faults is answered at once', () => {
    const many = { ...good, job: { ...good.job, timeline: Array.from({ length: 1999 }, () => ({ kind: 'result' })) } };
    expect(validate(many, savedSchema).length).toBeLessThanOrEqual(20);
  });
});

describe('older forms', () => {
  test('a case file of the command line is read as a job', () => {
    const reading = readSavedText(
      JSON.stringify({
        codes: ['P0401'],
        engine: { cylinders: 4, recirculation: 'vacuum', recentWork: ['battery'] },
        symptoms: { 'lamp-steady': 'present' },
        replaced: ['recirculation-valve'],
        results: [{ check: 'one', outcome: 'good' }],
        repaired: ['a-cause'],
        notPossible: ['two'],
        hourlyRate: 30,
      }),
    );
    expect(reading).toMatchObject({ ok: true, note: expect.stringContaining('older form') });
    if (!reading.ok) return;
    expect(reading.saved.job.inputs).toMatchObject({
      codes: ['P0401'],
      cylinders: 4,
      traits: { recirculation: 'vacuum' },
      recentWork: ['battery'],
      replaced: [{ part: 'recirculation-valve', when: 'since-the-code' }],
      hourlyRate: 30,
    });
    expect(reading.saved.job.timeline.map(({ kind, id }) => `${id} ${kind}`)).toEqual(['1 result', '2 repair', '3 cannot']);
  });

  test('a case file that is none is refused like any other', () => {
    expect(says('{"codes": 5}')).toContain('could not be carried over');
    expect(says('{"codes": ["<script>"]}')).toContain('job.inputs.codes[0]');
  });
});
