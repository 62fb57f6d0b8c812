/** Zoom of a flowchart by buttons and by dragging; without this script it scrolls. */
const steps = [0.5, 0.65, 0.8, 1, 1.25, 1.6, 2];

export function addZoom(): void {
  for (const figure of document.querySelectorAll<HTMLElement>('[data-flowchart]')) {
    const view = figure.querySelector<HTMLElement>('.flowchart-view');
    const picture = view?.querySelector('svg');
    if (!view || !picture) continue;
    const width = picture.width.baseVal.value;
    const height = picture.height.baseVal.value;
    let scale = 1;
    const show = (wanted: number) => {
      const middle = { x: (view.scrollLeft + view.clientWidth / 2) / scale, y: (view.scrollTop + view.clientHeight / 2) / scale };
      scale = wanted;
      picture.setAttribute('width', String(width * scale));
      picture.setAttribute('height', String(height * scale));
      view.scrollTo(middle.x * scale - view.clientWidth / 2, middle.y * scale - view.clientHeight / 2);
    };
    const tools = document.createElement('div');
    tools.className = 'flowchart-tools';
    const button = (label: string, title: string, act: () => void) => {
      const element = document.createElement('button');
      element.type = 'button';
      element.textContent = label;
      element.title = title;
      element.setAttribute('aria-label', title);
      element.addEventListener('click', act);
      tools.append(element);
    };
    button('−', 'Smaller', () => show(steps.findLast((step) => step < scale - 0.01) ?? scale));
    button('+', 'Larger', () => show(steps.find((step) => step > scale + 0.01) ?? scale));
    button('Whole', 'Whole width', () => show(Math.min(1, (view.clientWidth - 8) / width)));
    figure.prepend(tools);
    // A wide chart begins where its first box is.
    const first = picture.querySelector('.flow-box')?.getBoundingClientRect();
    if (first) view.scrollLeft += first.x + first.width / 2 - view.getBoundingClientRect().x - view.clientWidth / 2;

    let from: { x: number; y: number; left: number; top: number } | null = null;
    view.addEventListener('pointerdown', (event) => {
      if (event.pointerType !== 'mouse' || event.button !== 0) return;
      from = { x: event.clientX, y: event.clientY, left: view.scrollLeft, top: view.scrollTop };
    });
    window.addEventListener('pointermove', (event) => {
      if (from) view.scrollTo(from.left - (event.clientX - from.x), from.top - (event.clientY - from.y));
    });
    window.addEventListener('pointerup', () => {
      from = null;
    });
  }
}
