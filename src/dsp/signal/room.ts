/**
 * Memory that is there. A new large array is a promise: the system finds each of its pages when it is first written to, which
 * takes 50 µs for what is kept of a hit, on the audio thread. Here every page is written to at once. Real-time safe: no (allocates).
 */
export const room64 = (n: number): Float64Array => lender?.take64(n) ?? new Float64Array(n).fill(0);
export const room32 = (n: number): Float32Array => lender?.take32(n) ?? new Float32Array(n).fill(0);

let lender: Rooms | null = null;

/** Rooms that are lent again and again: to engines that are made one after the other, of which only the newest is used. Real-time safe: no. */
export class Rooms {
  private readonly all64 = new Lent((n) => new Float64Array(n));
  private readonly all32 = new Lent((n) => new Float32Array(n));

  /** What `make` makes has its rooms from here. Whatever was made with them before must not be used any more. */
  lend<T>(make: () => T): T {
    this.all64.back();
    this.all32.back();
    const before = lender;
    lender = this;
    try {
      return make();
    } finally {
      lender = before;
    }
  }

  take64(n: number): Float64Array {
    return this.all64.take(n);
  }

  take32(n: number): Float32Array {
    return this.all32.take(n);
  }
}

class Lent<T extends { fill(value: number): T }> {
  /** by length, and how many of each are out */
  private readonly rooms = new Map<number, { list: T[]; out: number }>();

  constructor(private readonly make: (n: number) => T) {}

  take(n: number): T {
    let same = this.rooms.get(n);
    if (!same) {
      same = { list: [], out: 0 };
      this.rooms.set(n, same);
    }
    const room = same.list[same.out] ?? this.make(n);
    same.list[same.out++] = room;
    return room.fill(0);
  }

  back(): void {
    for (const same of this.rooms.values()) same.out = 0;
  }
}
