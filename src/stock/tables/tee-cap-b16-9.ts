// Made by .tools/stock-tables.ts from shared/tee-cap-b16.9.csv: change that file and run the tool again.

/**
 * Straight tees and caps of ASME B16.9: center to end of a tee (C, run and outlet alike), length of a cap (E).
 * From memory of the inch and metric tables; no open source was at hand and the standard itself was not seen. Measure the fitting.
 *
 * Columns: nps,dn,tee_in,cap_in,tee_mm,cap_mm
 */
export const TEE_CAP_B16_9 = `
1/2,15,1,1,25,25
3/4,20,1 1/8,1,29,25
1,25,1 1/2,1 1/2,38,38
1 1/4,32,1 7/8,1 1/2,48,38
1 1/2,40,2 1/4,1 1/2,57,38
2,50,2 1/2,1 1/2,64,38
2 1/2,65,3,1 1/2,76,38
3,80,3 3/8,2,86,51
3 1/2,90,3 3/4,2 1/2,95,64
4,100,4 1/8,2 1/2,105,64
5,125,4 7/8,3,124,76
6,150,5 5/8,3 1/2,143,89
8,200,7,4,178,102
10,250,8 1/2,5,216,127
12,300,10,6,254,152
14,350,11,6 1/2,279,165
16,400,12,7,305,178
18,450,13 1/2,8,343,203
20,500,15,9,381,229
22,550,16 1/2,10,419,254
24,600,17,10 1/2,432,267
`;
