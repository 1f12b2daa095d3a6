/** What the page knows of the take's part: its page, and the take in hand. */
import type { Component } from 'solid-js';
import type { Take } from '../../state/take/take';

export interface TakePart {
  take: Take;
  TakePage: Component;
}
