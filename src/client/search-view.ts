/** The list under the field: groups of links, one of them chosen by the arrows. */

export interface Found {
  readonly title: string;
  /** Null: said, but leads nowhere. */
  readonly href: string | null;
  readonly text: string | null;
  /** Text of the page with `<mark>` about the words found, from the index: only the marks are kept. */
  readonly excerpt?: string;
}
export interface Group {
  readonly title: string;
  readonly items: readonly Found[];
}

export interface SearchView {
  show(groups: readonly Group[], say: string | null): void;
  clear(): void;
  /** Goes where the chosen line leads, or the first; false when there is none. */
  follow(): boolean;
}

export function showGroups(input: HTMLInputElement, list: HTMLElement): SearchView {
  let lines: HTMLAnchorElement[] = [];
  let chosen = -1;
  list.id = 'search-results';
  list.setAttribute('role', 'listbox');
  list.setAttribute('aria-label', 'Found');
  input.setAttribute('role', 'combobox');
  input.setAttribute('aria-controls', list.id);
  input.setAttribute('aria-expanded', 'false');
  input.setAttribute('aria-autocomplete', 'list');

  const choose = (index: number) => {
    lines[chosen]?.setAttribute('aria-selected', 'false');
    chosen = index;
    const line = lines[chosen];
    if (line) {
      line.setAttribute('aria-selected', 'true');
      line.scrollIntoView({ block: 'nearest' });
      input.setAttribute('aria-activedescendant', line.id);
    } else input.removeAttribute('aria-activedescendant');
  };
  const clear = () => {
    list.hidden = true;
    list.replaceChildren();
    lines = [];
    choose(-1);
    input.setAttribute('aria-expanded', 'false');
  };
  const follow = () => {
    const line = lines[chosen] ?? lines[0];
    if (!line) return false;
    location.assign(line.href);
    return true;
  };
  input.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') {
      if (list.hidden) input.value = '';
      clear();
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      if (lines.length === 0) return;
      event.preventDefault();
      const down = event.key === 'ArrowDown';
      choose(chosen < 0 ? (down ? 0 : lines.length - 1) : (chosen + (down ? 1 : -1) + lines.length) % lines.length);
    }
  });

  const show = (groups: readonly Group[], say: string | null) => {
    const before = lines[chosen]?.href;
    list.replaceChildren();
    lines = [];
    for (const group of groups) {
      const box = document.createElement('div');
      box.setAttribute('role', 'group');
      box.setAttribute('aria-label', group.title);
      const head = document.createElement('p');
      head.className = 'search-group';
      head.textContent = group.title;
      head.setAttribute('role', 'presentation');
      box.append(head);
      for (const item of group.items) {
        const line = document.createElement(item.href ? 'a' : 'div') as HTMLAnchorElement;
        line.setAttribute('role', 'option');
        line.setAttribute('aria-selected', 'false');
        if (item.href) {
          line.href = item.href;
          line.id = `found-${lines.length}`;
          line.tabIndex = -1;
          lines.push(line);
        } else line.setAttribute('aria-disabled', 'true');
        const title = document.createElement('span');
        title.className = 'search-title';
        title.textContent = item.title;
        line.append(title);
        if (item.text || item.excerpt) {
          const text = document.createElement('span');
          text.className = 'search-found';
          if (item.excerpt) marked(text, item.excerpt);
          else text.textContent = item.text;
          line.append(text);
        }
        box.append(line);
      }
      list.append(box);
    }
    if (say) {
      const line = document.createElement('p');
      line.className = 'search-say';
      line.setAttribute('role', 'option');
      line.setAttribute('aria-disabled', 'true');
      line.setAttribute('aria-selected', 'false');
      line.textContent = say;
      list.append(line);
    }
    list.hidden = list.childElementCount === 0;
    input.setAttribute('aria-expanded', String(!list.hidden));
    const again = lines.findIndex((line) => line.href === before);
    chosen = -1;
    choose(before ? again : -1);
  };
  return { show, clear, follow };
}

/** Puts an excerpt in as text, with its marks as elements and nothing else as markup. */
function marked(place: HTMLElement, excerpt: string): void {
  const plain = (text: string) =>
    text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&');
  excerpt.split(/<mark>|<\/mark>/).forEach((text, index) => {
    if (index % 2 === 0) place.append(plain(text));
    else {
      const mark = document.createElement('mark');
      mark.textContent = plain(text);
      place.append(mark);
    }
  });
}
