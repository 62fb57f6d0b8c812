/** Starts the job page in its place in the document. */
import { render } from 'preact';
import { loadJobData } from './data.ts';
import { Session } from './session.ts';
import { JobPage } from './view/JobPage.tsx';

export async function mountJob(place: HTMLElement): Promise<void> {
  try {
    const data = await loadJobData();
    const session = await Session.start(data, location.hash, (fragment, how) => {
      if (fragment === location.hash) return;
      if (how === 'push') history.pushState(null, '', fragment);
      else history.replaceState(null, '', fragment);
    });
    // Back, forward, and addresses that are typed or followed while the page is open.
    addEventListener('hashchange', () => void session.follow(location.hash));
    addEventListener('pagehide', () => session.leave());
    addEventListener('pageshow', (event: PageTransitionEvent) => event.persisted && session.comeBack());
    place.textContent = '';
    render(<JobPage session={session} />, place);
    place.dataset['ready'] = '';
  } catch (error) {
    place.textContent = '';
    const message = document.createElement('p');
    message.setAttribute('role', 'alert');
    message.textContent = `The job page could not start: ${(error as Error).message}. Load the page anew; if you are offline, open it once with a connection.`;
    place.append(message);
  }
}
