/** The teaching bench’s part of the page: what was set up and learned stays for as long as the page is open. */
import type { Component } from 'solid-js';
import { createTeaching } from '../../state/teaching/teaching';
import { BenchPage, type BenchPageProps } from './BenchPage';
import './bench.css';
import './drawn/drawn.css';
import './lesson.css';

export function openBench(sound: BenchPageProps['sound']): { BenchPage: Component } {
  const teaching = createTeaching();
  return { BenchPage: () => <BenchPage teaching={teaching} sound={sound} /> };
}
