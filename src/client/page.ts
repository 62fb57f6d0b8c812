/** What runs on every page: the choice of paper, the offline copy, `/` to search, steps that open by their address. */

import { keepOffline } from './offline.ts';
import { openTarget } from './open-target.ts';
import { choosePaper } from './paper.ts';
import { readySearch } from './ready-search.ts';

choosePaper();
readySearch();
openTarget();
void keepOffline();
if (document.querySelector('[data-flowchart]')) void import('./flowchart.ts').then(({ addZoom }) => addZoom());
