/** Loads the search when its field is first touched; `/` goes to the field, or to the search page where there is none. */
export function readySearch(): void {
  const form = document.querySelector<HTMLFormElement>('form[data-search]');
  const input = form?.querySelector('input');
  window.addEventListener('keydown', (event) => {
    if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof HTMLElement && event.target.closest('input, textarea, select, [contenteditable]')) return;
    event.preventDefault();
    if (input) input.focus();
    else location.assign('/search/');
  });
  if (!form || !input) return;
  let loading: Promise<void> | null = null;
  const load = () => {
    loading ??= import('./search.ts').then(({ startSearch }) => startSearch(form));
    return loading;
  };
  input.addEventListener('focus', () => void load(), { once: true });
  const asked = new URLSearchParams(location.search).get('q');
  if (asked) input.value = asked;
  if (asked || form.dataset.search === 'full') void load();
}
