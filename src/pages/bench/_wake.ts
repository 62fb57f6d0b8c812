/** Wakes a calculator and lets it give its figures to a job: they travel in the fragment of the address, and the job page asks which job. */
import type { ComponentType } from 'preact';
import { wakeBench } from '../../bench/mount.tsx';
import { fragmentOf } from '../../job/keep/link.ts';

export const wake = <Data>(View: ComponentType<{ readonly data: Data }>): void =>
  wakeBench(View, async (situation) => {
    const link = await fragmentOf(JSON.stringify(situation), 'given');
    if (link.ok) location.assign(`/job/${link.fragment}`);
  });
