/** The session, for every part of the view. */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Session } from '../session.ts';

export const SessionContext = createContext<Session | null>(null);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (!session) throw new Error('a part of the job page stands outside its session');
  return session;
}
