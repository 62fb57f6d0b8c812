// Runs before the page is painted, so that the chosen paper never flashes.
try {
  const paper = localStorage.getItem('paper');
  if (paper) document.documentElement.dataset.paper = paper;
} catch {
  // Storage may be refused; the paper then follows the device.
}

// A page change that comes before the last one has faded in is no fault.
for (const name of ['pagereveal', 'pageswap'])
  addEventListener(name, (event) => {
    const transition = event.viewTransition;
    if (!transition) return;
    transition.ready.catch(() => {});
    transition.finished.catch(() => {});
  });
