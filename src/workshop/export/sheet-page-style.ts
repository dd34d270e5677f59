import { pageStyle } from './page-style.ts';

/** The style of a record's page, and blanks to write in: black on white, for A4 and Letter. */
export const sheetPageStyle = `${pageStyle}
.whole+.whole{break-before:page}
.whole h2{margin:5mm 0 1.5mm}
.work{table-layout:fixed;border:1pt solid #000}
.work th,.work td{border:.5pt solid #000;padding:1mm 1.5mm}
.work thead th{font-size:8pt;border-bottom:1pt solid #000}
.c-step{width:9mm}
.c-target{width:29mm}
.c-scale{width:24mm}
.c-lot{width:24mm}
.c-read{width:25mm}
.c-time{width:14mm}
.c-by{width:13mm}
.weigh td{height:13mm}
.target-mass{font-size:12pt;font-weight:bold;white-space:nowrap}
.unit{display:block;text-align:right;padding-top:6mm}
.box{display:inline-block;width:4mm;height:4mm;border:1pt solid #000;margin:0 1.5mm 0 0;vertical-align:-.6mm}
.tick{margin:0 2.5mm 0 0;display:inline-block}
.blank{display:inline-block;border-bottom:.6pt solid #000;height:6.5mm;vertical-align:baseline;width:24mm}
.short{width:14mm}
.long{width:58mm}
.fill{margin:0 3mm 0 0;white-space:nowrap;display:inline-block}
.lines,.sign{table-layout:fixed}
.lines th,.lines td,.sign th,.sign td{border:.5pt solid #000;padding:1mm 1.5mm}
.lines td{height:8.5mm}
.sign td{height:12mm}
.sign th:first-child{width:28mm}
.w-narrow{width:21mm}
.w-middle{width:36mm}
.w-wide{width:58mm}
.runner .blank{height:4mm;width:36mm}
.kept{break-inside:avoid}
`;
