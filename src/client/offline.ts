/** The copy for use without a network: made on the first visit, its state said in the foot, never swapped unasked. */
export async function keepOffline(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-offline]');
  if (!place || !import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const say = (text: string) => {
    place.hidden = false;
    place.textContent = text;
  };
  try {
    const registration = await navigator.serviceWorker.register('/sw.js');
    const offer = () => {
      const waiting = registration.waiting;
      if (!waiting || !navigator.serviceWorker.controller) return;
      say('A newer version is ready. ');
      const button = document.createElement('button');
      button.type = 'button';
      button.textContent = 'Load it now';
      button.addEventListener('click', () => {
        navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
        waiting.postMessage({ type: 'SKIP_WAITING' });
      });
      place.append(button);
    };
    const follow = (worker: ServiceWorker | null) => {
      if (!worker) return;
      if (worker.state === 'installing') say('Being kept for use without a network…');
      worker.addEventListener('statechange', () => {
        if (worker.state === 'installed') offer();
        if (worker.state === 'activated') say('Kept on this device: works without a network.');
        if (worker.state === 'redundant' && !registration.active)
          say('Could not be kept for use without a network: the device may be full.');
      });
    };
    follow(registration.installing);
    registration.addEventListener('updatefound', () => follow(registration.installing));
    if (registration.active && !registration.installing) say('Kept on this device: works without a network.');
    offer();
  } catch {
    say('Not kept for use without a network: this browser refused.');
  }
}
