/** Each screen has an address (`#/pace`), so that it can be linked to and the browser's back button works. */
import { type Screen, SCREENS, session } from '../state/session.ts';

/** Screen of an address; an unknown one is the first. */
export function screenOf(hash: string): Screen {
  return SCREENS.find((screen) => hash === `#/${screen}`) ?? 'take';
}

/** Starts following the address. */
export function followAddress(): void {
  const follow = (): void => session.setState({ screen: screenOf(location.hash) });
  follow();
  window.addEventListener('hashchange', follow);
}
