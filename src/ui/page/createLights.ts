/** Paper and ink as a person wants them, or as the system or the browser has them. */
import { type Accessor, createEffect, createSignal } from 'solid-js';
import type { Lights } from '../../state/settings/settings';
import { listen } from './listen';

type Query = EventTarget & { readonly matches: boolean };

export interface LightsOptions {
  lights: Accessor<Lights>;
  /** whether the system is dark */
  system?: Query;
  /** whether the system's own colours stand in place of the page's */
  forced?: Query;
  /** whether the browser darkens light pages by itself */
  darkens?: () => boolean;
  /** is told when the page is come back to: what the browser does may have changed meanwhile */
  back?: EventTarget;
  /** where the page's colours are chosen from */
  paper?: { paper?: string; darkened?: string; turned?: string };
}

export const isDark = (lights: Lights, systemIsDark: boolean): boolean =>
  lights === 'down' || (lights === 'auto' && systemIsDark);

/** A browser that darkens pages shows it in its own colour of a page's ground (Chromium's documented way to tell). */
function browserDarkens(): boolean {
  const probe = document.createElement('i');
  probe.style.cssText = 'display: none; color-scheme: light; background-color: Canvas';
  document.body.append(probe);
  const ground = getComputedStyle(probe).backgroundColor;
  probe.remove();
  return ground !== 'rgb(255, 255, 255)';
}

/** @returns a number that changes whenever paper and ink may have */
export function createLights({
  lights,
  system = matchMedia('(prefers-color-scheme: dark)'),
  forced = matchMedia('(forced-colors: active)'),
  darkens = browserDarkens,
  back = window,
  paper = document.documentElement.dataset,
}: LightsOptions): Accessor<number> {
  const [inkVersion, setInkVersion] = createSignal(0);
  const darkened = (): boolean => !forced.matches && darkens();
  const relight = (): void => {
    const byBrowser = darkened();
    // such a browser darkens whatever a page paints, so that a light page is a dark one turned round after that
    paper.paper = byBrowser || isDark(lights(), system.matches) ? 'dark' : 'light';
    paper.darkened = String(byBrowser);
    paper.turned = String(byBrowser && lights() === 'up');
    setInkVersion((n) => n + 1);
  };
  createEffect(relight);
  listen(system, 'change', relight);
  listen(forced, 'change', relight);
  listen(back, 'focus', () => {
    if (paper.darkened !== String(darkened())) relight();
  });
  return inkVersion;
}
