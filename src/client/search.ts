/** The search field at work: codes at once, then the small list, then the full index; arrows, Enter and Escape. */

import { fullSearch, loadFilters } from './full-search.ts';
import { tellingWords } from './nearest-words.ts';
import { type QuickEntry, quickSearcher } from './quick-search.ts';
import { type Found, type Group, showGroups } from './search-view.ts';
import { structureSentence, typedCodes } from './typed-codes.ts';

export async function startSearch(form: HTMLFormElement): Promise<void> {
  const input = form.querySelector('input')!;
  const list = form.querySelector<HTMLElement>('[data-search-results]')!;
  const filters = form.querySelector<HTMLElement>('[data-search-filters]')!;
  const entries = (await (await fetch('/data/quick.json')).json()) as QuickEntry[];
  const search = quickSearcher(entries);
  const codes = new Map(entries.filter(([kind]) => kind === 'Code').map(([, title, href, [code]]) => [code!, { title, href }]));
  const view = showGroups(input, list);
  let asked = 0;

  const codeGroup = (text: string): Group | null => {
    const typed = typedCodes(text);
    if (typed.codes.length === 0) return null;
    const known = typed.codes.filter(({ code }) => codes.has(code));
    const items: Found[] = typed.codes.map((structure) => {
      const page = codes.get(structure.code);
      return page
        ? { title: `${structure.code} ${page.title}`, href: page.href, text: structureSentence(structure) }
        : { title: structure.code, href: null, text: `${structureSentence(structure)}. Lampwise has no tree for it.` };
    });
    if (known.length > 0)
      items.push({
        title:
          known.length > 1 ? `Start one job with ${known.map(({ code }) => code).join(' and ')}` : `Start a job with ${known[0]!.code}`,
        href: `/job/#codes=${known.map(({ code }) => code).join(',')}`,
        text: known.length > 1 ? 'One fault that explains all of them is looked for first.' : null,
      });
    return { title: 'Codes', items };
  };

  const answer = async () => {
    const turn = ++asked;
    const text = input.value.trim();
    if (text === '') {
      view.clear();
      return;
    }
    const first = codeGroup(text);
    const rest = first ? typedCodes(text).rest : text;
    const started: Group[] = first ? [first] : [];
    const quick = rest.length >= 2 ? search(rest, 8) : [];
    const chosen = new FormData(form);
    const kind = String(chosen.get('kind') ?? '');
    const family = String(chosen.get('family') ?? '');
    if (quick.length > 0 && !kind && !family)
      for (const [title, hits] of Map.groupBy(quick, (hit) => hit.entry[0]))
        started.push({
          title: `${title}${hits.length > 1 ? 's' : ''}`.replace('ys', 'ies'),
          items: hits.map((hit) => ({
            title: hit.entry[0] === 'Code' ? `${hit.entry[3][0]} ${hit.entry[1]}` : hit.entry[1],
            href: hit.entry[2],
            text: hit.said && hit.entry[0] !== 'Code' ? `Also said: ${hit.said}` : null,
          })),
        });
    view.show(started, null);
    if (rest.length < 3) return;
    // Words that say nothing would be found, and marked, on every page; a quotation is meant word by word.
    const more = await fullSearch(rest.includes('"') ? rest : tellingWords(rest).join(' '), { kind, family });
    // Something else may have been typed meanwhile.
    if (turn !== asked) return;
    const shown = new Set(started.flatMap(({ items }) => items.map(({ href }) => href)));
    const fresh = more.items.filter(({ href }) => !shown.has(href));
    view.show(
      fresh.length > 0 ? [...started, { title: 'In the text', items: fresh }] : started,
      more.fault ??
        (started.length + fresh.length === 0 ? `Nothing is found for “${text}”. Try one word of it, or look through the symptoms.` : null),
    );
  };

  input.addEventListener('input', () => void answer());
  filters.addEventListener('change', () => void answer());
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    if (!view.follow()) void answer();
  });
  if (form.dataset.search === 'full') void loadFilters(filters);
  await answer();
}
