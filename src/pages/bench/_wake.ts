/** Wakes a calculator and lets it open a job: the case travels in the fragment of the address, in the form in which a job is shared. */
import type { ComponentType } from 'preact';
import { wakeBench } from '../../bench/mount.tsx';
import { fragmentOf } from '../../job/keep/link.ts';

export const wake = <Data>(View: ComponentType<{ readonly data: Data }>): void =>
  wakeBench(View, async (situation) => {
    const link = await fragmentOf(JSON.stringify(situation));
    if (link.ok) location.assign(`/job/${link.fragment}`);
  });
