// Made by .tools/stock-tables.ts from shared/pipe-en10220.csv: change that file and run the tool again.

/**
 * Outside diameters of EN 10220 / ISO 4200, series 1, in millimetres. EN 10220 gives no schedules: the wall is always stated.
 * Source of the rows marked seen: open data repositories jprymak/ref-helper (src/Data/pipes.ts) and oddtopus/flamingo
 * (tables/Reduct_EN*.csv), which agree from DN 20 to 450; DN 15 the first alone, DN 500 the second alone. Rows marked memory
 * are unconfirmed. The standard itself was not seen.
 *
 * Columns: dn,od_mm,status
 */
export const PIPE_EN10220 = `
6,10.2,memory
8,13.5,memory
10,17.2,memory
15,21.3,seen
20,26.9,seen
25,33.7,seen
32,42.4,seen
40,48.3,seen
50,60.3,seen
65,76.1,seen
80,88.9,seen
100,114.3,seen
125,139.7,seen
150,168.3,seen
200,219.1,seen
250,273,seen
300,323.9,seen
350,355.6,seen
400,406.4,seen
450,457,seen
500,508,seen
600,610,memory
700,711,memory
800,813,memory
900,914,memory
1000,1016,memory
`;
