/** The blind round’s part of the page. */
import { type Component, createRoot } from 'solid-js';
import { createByEar } from '../../state/byEar/byEar';
import type { Meter } from '../../state/meter/meterTypes';
import { LARGEST_ROUND } from '../../teaching/byEar/round';
import { ByEarPage } from './ByEarPage';
import './byEar.css';

export interface ByEarOptions {
  meter: Pick<Meter, 'scenes' | 'loadScenes' | 'soundOf'>;
  /** 0 … 1, 1 excluded */
  random(): number;
}

export function openByEar({ meter, random }: ByEarOptions): { ByEarPage: Component } {
  const newRound = (): number => 1 + Math.floor(random() * LARGEST_ROUND);
  void meter.loadScenes();
  const { byEar, source } = createRoot(() => {
    const round = createByEar(meter.scenes, newRound);
    return { byEar: round, source: meter.soundOf(round.scene) };
  });
  return { ByEarPage: () => <ByEarPage byEar={byEar} source={source} newRound={newRound} /> };
}
