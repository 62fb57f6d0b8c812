/** The choice of paper in the foot, kept on the device. */
export function choosePaper(): void {
  const label = document.querySelector<HTMLElement>('[data-paper-choice]');
  const select = label?.querySelector('select');
  if (!label || !select) return;
  select.value = document.documentElement.dataset.paper ?? '';
  label.hidden = false;
  select.addEventListener('change', () => {
    if (select.value) document.documentElement.dataset.paper = select.value;
    else delete document.documentElement.dataset.paper;
    try {
      if (select.value) localStorage.setItem('paper', select.value);
      else localStorage.removeItem('paper');
    } catch {
      // Storage refused: the choice holds for this page only.
    }
  });
}
