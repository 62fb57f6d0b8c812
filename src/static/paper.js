// Runs before the page is painted, so that the chosen paper never flashes.
try {
  const paper = localStorage.getItem('paper');
  if (paper) document.documentElement.dataset.paper = paper;
} catch {
  // Storage may be refused; the paper then follows the device.
}
