/** Two rooms may be called alike; files never are. */
export const stemOf = (file: string): string => file.replace(/\.[^.·]*(?= · |$)/, '');
