/** The full index, through Pagefind's own interface; loaded when it is first asked. */
import type { Found } from './search-view.ts';

interface PagefindResult {
  readonly url: string;
  readonly meta: { readonly title?: string };
  readonly excerpt: string;
}
interface Pagefind {
  init(): Promise<void>;
  filters(): Promise<Readonly<Record<string, Readonly<Record<string, number>>>>>;
  search(words: string, options: { filters: Record<string, string> }): Promise<{ results: { data(): Promise<PagefindResult> }[] }>;
}

let loading: Promise<Pagefind> | null = null;
// The address is put together so that the bundler leaves it alone: the index is written after the pages.
const pagefind = (): Promise<Pagefind> => {
  loading ??= import(/* @vite-ignore */ ['', 'pagefind', 'pagefind.js'].join('/')) as Promise<Pagefind>;
  return loading;
};

export async function fullSearch(
  words: string,
  chosen: { readonly kind: string; readonly family: string },
): Promise<{ readonly items: readonly Found[]; readonly fault: string | null }> {
  try {
    const index = await pagefind();
    const filters = Object.fromEntries(Object.entries(chosen).filter(([, value]) => value !== ''));
    const { results } = await index.search(words, { filters });
    const pages = await Promise.all(results.slice(0, 12).map((result) => result.data()));
    return {
      items: pages.map((page) => ({ title: page.meta.title ?? page.url, href: page.url, text: null, excerpt: page.excerpt })),
      fault: null,
    };
  } catch {
    loading = null;
    return { items: [], fault: 'The full index could not be loaded; the quick answers above still hold.' };
  }
}

/** Fills the choices of kind and family from the index. */
export async function loadFilters(place: HTMLElement): Promise<void> {
  try {
    const known = await (await pagefind()).filters();
    for (const name of ['kind', 'family']) {
      const select = place.querySelector<HTMLSelectElement>(`select[name="${name}"]`);
      for (const value of Object.keys(known[name] ?? {}).sort()) select?.add(new Option(value, value));
    }
    place.hidden = false;
  } catch {
    // Without the index there is nothing to filter.
  }
}
