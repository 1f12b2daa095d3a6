/** The sizes at which everything has to be seen. */
export interface Size {
  width: number;
  height: number;
}

export const SIZES: readonly Size[] = [
  { width: 1440, height: 900 },
  { width: 1280, height: 720 },
  { width: 1024, height: 768 },
  { width: 820, height: 1180 },
  { width: 390, height: 844 },
];

export const sizeText = ({ width, height }: Size): string => `${width}×${height}`;

/** From here on all of it is on one screen. */
export const isDesk = ({ width, height }: Size): boolean => width >= 1280 && height >= 720;
