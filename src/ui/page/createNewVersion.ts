/** The page is kept for when there is no network, and a newer version of it is noticed. */
import { type Accessor, createEffect, createSignal } from 'solid-js';
import { policy, SERVICE_WORKER } from '../trusted/policy';

type Registrations = Pick<ServiceWorkerContainer, 'register' | 'getRegistration'>;

/** null where pages can’t be kept: on http that isn’t local, in some private windows, and in development */
export const browserRegistrations = (): Registrations | null =>
  import.meta.env.PROD && 'serviceWorker' in navigator ? navigator.serviceWorker : null;

export interface Versions {
  /** a newer version is here and waits; it starts when the only page is reloaded (`src/hosting/worker/serviceWorker.ts`) */
  waits: Accessor<boolean>;
  /** the page is kept: it starts without a network */
  kept: Accessor<boolean>;
}

/**
 * To be called where effects have an owner.
 * @param mayFetch no meter runs, so that fetching the whole page disturbs no reading
 */
export function createNewVersion(mayFetch: Accessor<boolean>, registrations = browserRegistrations()): Versions {
  const [waits, setWaits] = createSignal(false);
  const [kept, setKept] = createSignal(false);
  let asked = false;
  let look = (): void => undefined;

  async function keep(container: Registrations): Promise<void> {
    await container.register(policy.createScriptURL(SERVICE_WORKER));
    const registration = await container.getRegistration();
    if (!registration) return;
    look = () => {
      // a first version waits for nobody
      setWaits(registration.waiting !== null && registration.active !== null);
      setKept(registration.active !== null);
    };
    const follow = (): void => {
      registration.installing?.addEventListener('statechange', look);
    };
    registration.addEventListener('updatefound', follow);
    follow();
    look();
  }

  createEffect(() => {
    if (!registrations || !mayFetch()) return;
    // told late of one that came while a meter ran, or not at all: what waits is what counts
    look();
    if (asked) return;
    asked = true;
    // where it is refused, or there is no room, the page works as ever while its server is there
    keep(registrations).catch(() => undefined);
  });
  return { waits, kept };
}
