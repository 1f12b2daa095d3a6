/** Hands in other workers as a crew: each does one task at a time. */
import { type Crew, CrewError } from '../../take/crew';
import type { Told } from '../../take/told/told';
import { buffersOf, type FoundTrack, type FromHand, type ToHand } from './takeMessages';

interface Waiting {
  onShare: (share: number) => void;
  resolve: (answer: FromHand) => void;
  reject: (thrown: Error) => void;
}

const OUT_OF_STEP = 'Reading got out of step; choose the tracks again.';

/** One end of a port, with at most one task under way. */
class Hand {
  private waiting: Waiting | null = null;
  private failure: CrewError | null = null;

  constructor(private readonly port: MessagePort) {
    port.onmessage = ({ data }: MessageEvent<FromHand>) => {
      if (data.type === 'share') return this.waiting?.onShare(data.share);
      const { waiting } = this;
      if (data.type === 'failed') this.failure = new CrewError(data.text);
      this.waiting = null;
      if (this.failure) waiting?.reject(this.failure);
      else if (data.type === 'refused') waiting?.reject(new Error(data.text));
      else waiting?.resolve(data);
    };
  }

  tell(message: ToHand, transfer: Transferable[] = []): void {
    this.port.postMessage(message, transfer);
  }

  ask(
    message: ToHand,
    onShare: (share: number) => void = () => undefined,
    transfer: Transferable[] = [],
  ): Promise<FromHand> {
    return new Promise((resolve, reject) => {
      if (this.failure) return reject(this.failure);
      this.waiting = { onShare, resolve, reject };
      this.tell(message, transfer);
    });
  }
}

/** @param tracks what was found in the files */
export function crewOfHands(ports: readonly MessagePort[], files: File[], told: Told, tracks: FoundTrack[]): Crew {
  const idle = ports.map((port) => new Hand(port));
  for (const hand of idle) hand.tell({ type: 'files', files, told, tracks });
  const ask = async (
    message: ToHand,
    onShare?: (share: number) => void,
    transfer?: Transferable[],
  ): Promise<FromHand> => {
    const hand = idle.pop();
    if (!hand) throw new CrewError(OUT_OF_STEP);
    try {
      return await hand.ask(message, onShare, transfer);
    } finally {
      idle.push(hand);
    }
  };
  return {
    hands: ports.length,
    async scan(group, onShare) {
      const answer = await ask({ type: 'scan', tracks: [...group] }, onShare);
      if (answer.type !== 'scanned') throw new CrewError(OUT_OF_STEP);
      return answer.scans;
    },
    async label(heard) {
      const answer = await ask({ type: 'label', heard }, undefined, buffersOf(heard.scans));
      if (answer.type !== 'labelled') throw new CrewError(OUT_OF_STEP);
      return answer.labelled;
    },
    async readDrum(task, onShare) {
      const answer = await ask({ type: 'drum', task }, onShare);
      if (answer.type !== 'drum') throw new CrewError(OUT_OF_STEP);
      return answer.drum;
    },
  };
}
