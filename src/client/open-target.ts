/** Opens the step or branch that the address names, and whatever it stands in; and all steps at once for whoever wants to print them. */
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
  const all = document.querySelector<HTMLButtonElement>('[data-open-all]');
  const steps = document.querySelectorAll<HTMLDetailsElement>('.order > .step > details');
  if (!all || steps.length === 0) return;
  all.hidden = false;
  all.addEventListener('click', () => {
    const shut = [...steps].some((step) => !step.open);
    for (const step of steps) step.open = shut;
    all.textContent = shut ? 'Shut all steps' : 'Open all steps';
  });
}
