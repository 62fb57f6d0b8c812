/** Opens the step or branch that the address names, and whatever it stands in; opens everything for printing. */
export function openTarget(): void {
  const open = () => {
    const target = location.hash.length > 1 ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
    if (!target) return;
    const inner = target.querySelector(':scope > details');
    if (inner instanceof HTMLDetailsElement) inner.open = true;
    for (let element: Element | null = target; element; element = element.parentElement)
      if (element instanceof HTMLDetailsElement) element.open = true;
    target.scrollIntoView();
  };
  window.addEventListener('hashchange', open);
  open();
  window.addEventListener('beforeprint', () => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
}
