import { createRoot, createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import { createNewVersion } from '../../../src/ui/page/createNewVersion';

/** A browser's end of it. */
class Registration extends EventTarget {
  installing: EventTarget | null = null;
  waiting: object | null = null;
  active: object | null = null;

  /** a version is fetched whole, and takes over where there is none before it */
  fetched(): void {
    const worker = new EventTarget();
    this.installing = worker;
    this.dispatchEvent(new Event('updatefound'));
    this.installing = null;
    this.waiting = worker;
    worker.dispatchEvent(new Event('statechange'));
    if (this.active) return;
    this.active = worker;
    this.waiting = null;
    worker.dispatchEvent(new Event('statechange'));
  }
}

const settled = () => new Promise((resolve) => setTimeout(resolve));

function made(registration: Registration | null, running = false) {
  const asked: string[] = [];
  const container = {
    register: (url: string) => {
      asked.push(url);
      return registration ? Promise.resolve(registration) : Promise.reject(new TypeError('refused'));
    },
    getRegistration: () => Promise.resolve(registration ?? undefined),
  } as unknown as ServiceWorkerContainer;
  const [quiet, setQuiet] = createSignal(!running);
  const { waits, kept } = createRoot(() => createNewVersion(quiet, container));
  return { waits, kept, asked, setQuiet };
}

test('a first version is none to tell of, the next one is', async () => {
  const registration = new Registration();
  const { waits, kept, asked } = made(registration);
  await settled();
  expect(asked).toEqual(['./serviceWorker.js']);
  expect(kept()).toBe(false);
  registration.fetched();
  expect(kept()).toBe(true);
  expect(waits()).toBe(false);
  registration.fetched();
  expect(waits()).toBe(true);
});

test('one that came while no page was open is told of at once', async () => {
  const registration = Object.assign(new Registration(), { active: {}, waiting: {} });
  const { waits } = made(registration);
  await settled();
  expect(waits()).toBe(true);
});

test('one that no event told of in time is found when the meter stops', async () => {
  const registration = Object.assign(new Registration(), { active: {} });
  const { waits, setQuiet } = made(registration);
  await settled();
  setQuiet(false);
  registration.waiting = {};
  expect(waits()).toBe(false);
  setQuiet(true);
  expect(waits()).toBe(true);
});

test('nothing is fetched while a meter runs, and once only', async () => {
  const { asked, setQuiet } = made(new Registration(), true);
  await settled();
  expect(asked).toEqual([]);
  for (const quiet of [true, false, true]) setQuiet(quiet);
  await settled();
  expect(asked).toHaveLength(1);
});

test('where it is refused, or isn’t there, nothing is told', async () => {
  const { waits } = made(null);
  await settled();
  expect(waits()).toBe(false);
  expect(createRoot(() => createNewVersion(() => true, null)).waits()).toBe(false);
});
