// Made by .tools/stock-tables.ts from shared/fitting-b16.9.csv: change that file and run the tool again.

/**
 * Butt-welding fittings of ASME B16.9: centre to end of long-radius 90 (A) and 45 (B) and short-radius 90 elbows, length of
 * reducers (H, by the large end). Millimetres: EdgarJRobles/quetzal at 76cc1a6, tablez/Elbow_SCH-STD_*.csv and
 * Reduct_SCH-STD.csv. Inches: the eighth of an inch that each millimetre figure rounds, agreeing with the inch table as
 * remembered. Edition not stated; the standard itself was not seen.
 *
 * Columns: nps,dn,lr90_in,lr45_in,sr90_in,reducer_in,lr90_mm,lr45_mm,sr90_mm,reducer_mm
 */
export const FITTING_B16_9 = `
1/2,15,1 1/2,5/8,,,38,16,,
3/4,20,1 1/2,3/4,,1 1/2,38,19,,38
1,25,1 1/2,7/8,1,2,38,22,25,51
1 1/4,32,1 7/8,1,1 1/4,2,48,25,32,51
1 1/2,40,2 1/4,1 1/8,1 1/2,2 1/2,57,29,38,64
2,50,3,1 3/8,2,3,76,35,51,76
2 1/2,65,3 3/4,1 3/4,2 1/2,3 1/2,95,44,64,89
3,80,4 1/2,2,3,3 1/2,114,51,76,89
3 1/2,90,5 1/4,2 1/4,3 1/2,4,133,57,89,102
4,100,6,2 1/2,4,4,152,64,102,102
5,125,7 1/2,3 1/8,5,5,190,79,127,127
6,150,9,3 3/4,6,5 1/2,229,95,152,140
8,200,12,5,8,6,305,127,203,152
10,250,15,6 1/4,10,7,381,159,254,178
12,300,18,7 1/2,12,8,457,190,305,203
14,350,21,8 3/4,14,13,533,222,356,330
16,400,24,10,16,14,610,254,406,356
18,450,27,11 1/4,18,15,686,286,457,381
20,500,30,12 1/2,20,20,762,318,508,508
22,550,33,13 1/2,22,20,838,343,559,508
24,600,36,15,24,20,914,381,610,508
`;
