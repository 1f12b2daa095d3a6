/** "₁₂": a number below the line. */
export const below = (n: number): string => [...String(n)].map((digit) => '₀₁₂₃₄₅₆₇₈₉'[Number(digit)]).join('');
