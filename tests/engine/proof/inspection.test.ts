import { describe, expect, test } from 'vitest';
import { inspect, monitorStatus, unsetMonitors, unsetMonitorsAllowed } from '../../../src/engine/proof/index.ts';

const fine = { modelYear: 2004, lampCommandedOn: false, lampWorks: true, unsetMonitors: 0 };

describe('inspection, 40 CFR 85.2207 and 85.2222', () => {
  test('two unset monitors are allowed for 1996 to 2000, one from 2001', () => {
    expect([1996, 2000, 2001, 2015].map(unsetMonitorsAllowed)).toEqual([2, 2, 1, 1]);
    expect(unsetMonitorsAllowed(1995)).toBeNull();
  });

  test('one too many sends the car away once, and fails it the second time', () => {
    expect(inspect({ ...fine, unsetMonitors: 1 }).verdict).toBe('pass');
    expect(inspect({ ...fine, unsetMonitors: 2 }).verdict).toBe('come-again');
    expect(inspect({ ...fine, modelYear: 1999, unsetMonitors: 2 }).verdict).toBe('pass');
    expect(inspect({ ...fine, unsetMonitors: 2, secondVisit: true }).verdict).toBe('fail');
  });

  test('a commanded lamp fails, even with every monitor set; so does a lamp that does not light', () => {
    expect(inspect({ ...fine, lampCommandedOn: true })).toMatchObject({ verdict: 'fail', source: '40 CFR 85.2207(c), 85.2222(d)(1)' });
    expect(inspect({ ...fine, lampWorks: false }).verdict).toBe('fail');
  });

  test('a car before 1996 is not inspected this way', () => {
    expect(inspect({ ...fine, modelYear: 1994 }).verdict).toBe('not-inspected');
  });
});

describe('monitor status, service 01 PID 01', () => {
  // 0x83 in byte A is lamp on with three codes: value run in an open decoder of the same table.
  test('0x83 is a lit lamp with three codes', () => {
    expect(monitorStatus([0x83, 0x07, 0x65, 0x04])).toMatchObject({ lampCommandedOn: true, storedCodes: 3, ignition: 'spark' });
  });

  test('byte C says what is fitted, a bit of byte D that it has not completed', () => {
    const status = monitorStatus([0x00, 0x07, 0x65, 0x05]);
    expect(unsetMonitors(status).map(({ title }) => title)).toEqual(['Catalyst', 'Evaporative system']);
    expect(status.monitors.filter(({ state }) => state === 'complete').map(({ title }) => title)).toEqual([
      'Misfire',
      'Fuel system',
      'Components',
      'Oxygen sensor',
      'Oxygen sensor heater',
    ]);
  });

  test('a bit of byte D without its bit in byte C is a monitor that is not fitted', () => {
    expect(unsetMonitors(monitorStatus([0, 0, 0, 0xff]))).toEqual([]);
  });
});

describe('what is said to whoever failed', () => {
  const state = { modelYear: 2005, lampCommandedOn: false, lampWorks: true, unsetMonitors: 0 };
  // 40 CFR 85.2207 and 85.2222, as read.
  test.each([
    [{ modelYear: 1995 }, 'not-inspected', 'Cars before model year 1996 have no such monitors.', '40 CFR 85.2222'],
    [{ lampWorks: false }, 'fail', 'The lamp is dark at key-on or although it is commanded on.', '40 CFR 85.2222(d)(3) and (4)'],
    [{ lampCommandedOn: true }, 'fail', 'The control module commands the lamp on.', '40 CFR 85.2207(c), 85.2222(d)(1)'],
    [{ unsetMonitors: 2 }, 'come-again', '2 monitors are unset; model year 2005 may have 1.', '40 CFR 85.2222(c)(2)'],
    [{ unsetMonitors: 2, secondVisit: true }, 'fail', 'Not ready again on the second visit.', '40 CFR 85.2222(c)(1)'],
    [
      { unsetMonitors: 1 },
      'pass',
      'The lamp is not commanded on and enough monitors are set. Codes stored without the lamp do not fail the car.',
      '40 CFR 85.2222(c)(2) and (d)(2)',
    ],
  ])('%j: %s', (change, verdict, reason, source) => {
    expect(inspect({ ...state, ...change })).toEqual({ verdict, reason, source });
  });
});

test('every monitor stands under its bit; those of byte B are continuous and report in its upper half', () => {
  const { monitors, ignition } = monitorStatus([0, 0b0101_0111, 0xff, 0x81]);
  expect(ignition).toBe('spark');
  expect(monitorStatus([0, 0b1000, 0, 0]).ignition).toBe('compression');
  expect(monitors.map(({ bit, state, continuous }) => [bit, state, continuous])).toEqual([
    ['B0', 'incomplete', true],
    ['B1', 'complete', true],
    ['B2', 'incomplete', true],
    ['C0', 'incomplete', false],
    ...[1, 2, 3, 4, 5, 6].map((position) => [`C${position}`, 'complete', false]),
    ['C7', 'incomplete', false],
  ]);
  expect(monitorStatus([0, 0, 0, 0]).monitors.map(({ state }) => state)).toEqual(Array(11).fill('not-fitted'));
});
