/** Drawn microphones and what their channels add. */
import { BARN } from '../../samples/model/barn';
import type { MicrophoneResponse } from '../../samples/model/microphone';
import type { Point, Room } from '../../samples/model/room';
import type { CaseChannel, CaseGroup, CaseMicrophone } from './case';
import type { Draw } from './draw';

/** One room for both microphones of a case. */
export function drawRoom(group: CaseGroup, draw: Draw): Room {
  const live = group === 'room';
  return {
    ...BARN,
    floor: draw.between(0.4, live ? 0.9 : 0.75),
    ceiling: draw.between(0.3, live ? 0.8 : 0.5),
    walls: draw.between(0.3, live ? 0.85 : 0.6),
    dullHz: draw.ratio(2500, 7000),
    tailDb: live ? draw.between(-28, -20) : draw.between(-38, -27),
    tail60Seconds: live ? draw.between(0.5, 1) : draw.between(0.2, 0.5),
  };
}

function drawResponse(dull: boolean, draw: Draw): MicrophoneResponse {
  return {
    lowCutHz: draw.ratio(20, 120),
    lowCutOrder: draw.chance(0.5) ? 1 : 2,
    highCutHz: dull ? draw.ratio(3500, 7000) : draw.ratio(9000, 20000),
    highCutOrder: draw.chance(0.5) ? 1 : 2,
    presenceHz: draw.ratio(2500, 10500),
    presenceDb: dull ? draw.between(-4, 3) : draw.between(-1, 6),
  };
}

/** A loudspeaker's cone: its own resonance below, nothing above. */
export function drawDriver(draw: Draw): { lowPassHz: number; order: number } {
  return { lowPassHz: draw.ratio(100, 250), order: draw.one([2, 3, 4]) };
}

function drawChannel(group: CaseGroup, worse: boolean, humHz: number, draw: Draw): CaseChannel {
  const peakDbfs =
    group === 'clipped' && worse
      ? draw.between(1.5, 9)
      : group === 'weak channel' && worse
        ? draw.between(-36, -24)
        : draw.between(-16, -3);
  return {
    peakDbfs,
    noiseDb: group === 'noise' ? draw.between(-60, -40) : draw.between(-80, -62),
    noiseColour: draw.chance(0.5) ? 'pink' : 'white',
    humDb:
      group === 'hum' ? draw.between(-55, -40) : draw.chance(0.5) ? Number.NEGATIVE_INFINITY : draw.between(-85, -66),
    humHz,
    dc: group === 'offset' ? draw.sign() * draw.ratio(0.002, 0.04) : draw.between(-2e-4, 2e-4),
    bits: draw.chance(0.4) ? 16 : 24,
  };
}

export interface MicrophoneOptions {
  group: CaseGroup;
  /** this one has the fault that only one of the two has */
  worse: boolean;
  room: Room | null;
  humHz: number;
}

export function drawMicrophone(at: Point, options: MicrophoneOptions, draw: Draw): CaseMicrophone {
  const { group, worse, room, humHz } = options;
  const detours = draw.chance(0.7) ? [{ extraCm: draw.ratio(6, 35), share: draw.between(0.05, 0.25) }] : [];
  if (draw.chance(0.2)) detours.push({ extraCm: draw.ratio(15, 60), share: draw.between(0.05, 0.25) });
  return {
    ...drawChannel(group, worse, humHz, draw),
    at,
    move: null,
    response: drawResponse(group === 'unlike' && worse, draw),
    driver: null,
    room,
    detours,
    dead: false,
  };
}
