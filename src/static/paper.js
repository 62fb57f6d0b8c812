// Runs before the page is painted, so that the chosen paper never flashes.
try {
  const paper = localStorage.getItem('paper');
  if (paper) document.documentElement.dataset.paper = paper;
  // Room for the list of open jobs on the first page, so that nothing moves when it has been read.
  const jobs = localStorage.getItem('open-jobs');
  if (jobs) document.documentElement.dataset.jobs = jobs;
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
