/** Whether one may drive, in words. */
import type { CodeGroupFile } from '../model/schema/vocabulary.ts';

export type Driving = CodeGroupFile['driving'];

export const drivingTitles: Readonly<Record<Driving, string>> = {
  stop: 'Do not drive',
  'home-only': 'Gently home, then park it',
  gently: 'Drivable gently; mend it soon',
  'as-usual': 'Drivable as usual',
};
