import { describe, expect, test } from 'vitest';
import { ticksTo } from '../../src/compile/curve-view.ts';
import { duration, money, moneyRange, percent } from '../../src/compile/figures.ts';
import { limitsText } from '../../src/compile/reading-view.ts';

const plainBlanks = (text: string) => text.replaceAll('\u00a0', ' ');

describe('figures', () => {
  test('a chance is never rounded to certainty', () => {
    expect([0, 0.001, 0.034, 0.5, 0.996, 1].map(percent).map(plainBlanks)).toEqual(['0 %', '< 1 %', '3 %', '50 %', '> 99 %', '100 %']);
  });

  test('money has cents only under ten dollars, and thousands apart', () => {
    expect([0, 3.07, 6, 12.4, 1070, 1234567].map(money)).toEqual(['$0', '$3.07', '$6', '$12', '$1,070', '$1,234,567']);
    expect(moneyRange({ low: 6, high: 6 })).toBe('$6');
  });

  test('minutes become hours from an hour and a half on', () => {
    expect([8, 89, 90, 120, 135].map(duration)).toEqual(['8 min', '89 min', '1 h 30 min', '2 h', '2 h 15 min']);
  });

  test('limits say to which side their ends belong', () => {
    expect(limitsText({ above: 57, below: 71 }, 'kPa')).toBe('57 kPa to under 71 kPa');
    expect(limitsText({ above: 57 }, 'kPa')).toBe('57 kPa or more');
    expect(limitsText({ below: -8 }, 'percent')).toBe('under −8 %');
    expect(limitsText({}, 'V')).toBe('');
  });

  test('an axis is divided in steps of 1, 2 or 5', () => {
    expect(ticksTo(1100, 6)).toEqual([0, 200, 400, 600, 800, 1000]);
    expect(ticksTo(42, 6)).toEqual([0, 10, 20, 30, 40]);
  });
});
