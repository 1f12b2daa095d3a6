/** What a take's tracks are called. */

/** A track without its file's ending. Two rooms may be called alike; files never are. */
export const stemOf = (file: string): string => file.replace(/\.[^.·]*(?= · |$)/, '');
