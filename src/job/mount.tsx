/** Starts the job page in its place in the document. */
import { render } from 'preact';
import { loadJobData } from './data.ts';
import { Session } from './session.ts';
import { JobPage } from './view/JobPage.tsx';

export async function mountJob(place: HTMLElement): Promise<void> {
  try {
    const data = await loadJobData();
    const session = await Session.start(data, location.hash);
    // A link is opened once; what follows is kept on the device.
    if (location.hash) history.replaceState(null, '', location.pathname);
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
