/** How many of a long suite's cases are tried: a share of them, or with SOAPSTONE_FULL=1 all that it stands for. */
export const countOf = (full: number, share: number): number =>
  process.env['SOAPSTONE_FULL'] === '1' ? full : share;
