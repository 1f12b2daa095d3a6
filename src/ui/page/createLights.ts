/** Paper and ink as a person wants them, or as the system has them. */
import { type Accessor, createEffect, createSignal } from 'solid-js';
import type { Lights } from '../../state/settings/settings';
import { listen } from './listen';

export interface LightsOptions {
  lights: Accessor<Lights>;
  /** whether the system is dark */
  system?: EventTarget & { readonly matches: boolean };
  /** where the page's colours are chosen from */
  paper?: { paper?: string };
}

export const isDark = (lights: Lights, systemIsDark: boolean): boolean =>
  lights === 'down' || (lights === 'auto' && systemIsDark);

/** @returns a number that changes whenever paper and ink may have */
export function createLights({ lights, system, paper }: LightsOptions): Accessor<number> {
  const asked = system ?? window.matchMedia('(prefers-color-scheme: dark)');
  const page = paper ?? document.documentElement.dataset;
  const [inkVersion, setInkVersion] = createSignal(0);
  const relight = (): void => {
    page.paper = isDark(lights(), asked.matches) ? 'dark' : 'light';
    setInkVersion((n) => n + 1);
  };
  createEffect(relight);
  listen(asked, 'change', relight);
  return inkVersion;
}
