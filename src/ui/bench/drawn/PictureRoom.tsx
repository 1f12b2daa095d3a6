/** A picture of the bench that fills its room, with letters as large as that allows. */
import type { Accessor, JSX } from 'solid-js';
import { createRoom } from '../../shared/createRoom';

/** px */
export interface PictureSize {
  width: number;
  height: number;
  letters: number;
}

export interface RoomOfPicture {
  size: Accessor<PictureSize>;
  watch(element: Element): void;
}

/** @param first until the room is measured, px */
export function createPictureRoom(first: { width: number; height: number }): RoomOfPicture {
  const room = createRoom(first);
  return {
    size: () => {
      const { width, height } = room.size();
      return { width, height, letters: Math.max(14, Math.min(22, width / 26)) };
    },
    watch: room.watch,
  };
}

/** On paper of its own; what it shows is told beside it. */
export function PictureRoom(props: { room: RoomOfPicture; children: JSX.Element }): JSX.Element {
  const size = (): PictureSize => props.room.size();
  return (
    <div class="bench-room" ref={(it) => props.room.watch(it)}>
      <svg
        viewBox={`0 0 ${size().width} ${size().height}`}
        style={{ 'font-size': `${size().letters}px` }}
        aria-hidden="true"
      >
        <rect class="bench-paper" width={size().width} height={size().height} />
        {props.children}
      </svg>
    </div>
  );
}
