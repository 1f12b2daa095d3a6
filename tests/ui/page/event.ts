/** An event as a browser sends it, with what only the browser's own kinds have. */
export function eventOf(type: string, parts: Record<string, unknown> = {}): Event {
  const event = new Event(type, { cancelable: true });
  for (const [name, value] of Object.entries(parts)) Object.defineProperty(event, name, { value });
  return event;
}
