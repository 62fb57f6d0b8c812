/** What runs on every page: the choice of paper, the offline copy, `/` to search. */
import { choosePaper } from './paper.ts';

choosePaper();
