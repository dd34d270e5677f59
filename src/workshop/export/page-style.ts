/** The whole style of the page: black on white, readable without colour, on A4 and on Letter. */
export const pageStyle = `
:root{--line:#000}
*{box-sizing:border-box}
body{margin:0 auto;max-width:190mm;padding:6mm;color:#000;background:#fff;font:10.5pt/1.4 "Liberation Sans",Arial,Helvetica,sans-serif;font-variant-numeric:tabular-nums}
h1{font-size:19pt;line-height:1.15;margin:0 0 1mm}
h2{font-size:12.5pt;margin:7mm 0 2mm;padding-bottom:.7mm;border-bottom:1.5pt solid var(--line);break-after:avoid}
h3{font-size:10.5pt;margin:0 0 1mm;break-after:avoid}
p{margin:0 0 1.5mm}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:1mm 2mm 1mm 0;border-bottom:.5pt solid #aaa}
thead th{font-size:8.5pt;font-weight:normal;color:#333;border-bottom:.8pt solid var(--line)}
th[scope=row]{font-weight:normal}
tr,.addition,.signature{break-inside:avoid}
.n{text-align:right;padding-right:4mm;white-space:nowrap}
.small{font-size:8.5pt;color:#333}
.hash{font-family:"Liberation Mono","Courier New",monospace;font-size:8.5pt;overflow-wrap:anywhere}
.whole>tbody>tr>td{border:0;padding:0}
.whole>thead>tr>td{border:0;padding:0 0 4mm}
.runner{display:flex;justify-content:space-between;gap:4mm;font-size:8.5pt;border-bottom:.5pt solid var(--line);padding-bottom:1mm}
.practice{display:block;border:2pt solid #000;text-align:center;font-weight:bold;letter-spacing:.12em;padding:1mm;margin-bottom:1.5mm}
.facts{display:grid;grid-template-columns:repeat(3,1fr);gap:2mm 6mm;margin:4mm 0 0}
.facts dt{font-size:8.5pt;color:#333}
.facts dd{margin:0;font-weight:bold}
.boxed{border:1.5pt solid var(--line);padding:2mm 3mm;margin:3mm 0}
.boxed ul{margin:0;padding-left:5mm}
.mark{font-weight:bold;white-space:nowrap}
.addition{border:.8pt solid var(--line);padding:2mm 3mm 1mm;margin:0 0 3mm}
.addition header{display:flex;justify-content:space-between;gap:4mm}
.addition .sum{margin:0 0 1mm}
.addition td{border-bottom:.3pt solid #bbb}
.addition tr:last-child td{border-bottom:0}
.when{white-space:nowrap;width:29mm}
.pairs{width:auto}
.pairs th{white-space:nowrap;padding-right:8mm}
.pairs .n{white-space:normal}
.readings{table-layout:fixed}
.c-when{width:29mm}
.c-mass{width:26mm}
.c-mark{width:14mm}
.c-gauge{width:44mm}
.gauge{display:block;width:42mm;height:auto}
.axis{stroke:#000;stroke-width:1;fill:none}
.window{fill:#ddd;stroke:#000;stroke-width:1}
.target{stroke:#000;stroke-width:1.2;stroke-dasharray:2 1.5;fill:none}
.wedge{fill:#000;stroke:#000;stroke-width:1}
.out{fill:#fff}
.signatures{display:grid;grid-template-columns:1fr 1fr;gap:3mm}
.signature{border:.8pt solid var(--line);padding:2mm 3mm}
.signature b{font-size:12pt}
pre{white-space:pre-wrap;overflow-wrap:anywhere;font:8.5pt/1.35 "Liberation Mono","Courier New",monospace;margin:2mm 0}
footer{margin-top:7mm;border-top:.5pt solid var(--line);padding-top:1.5mm}
@page{margin:14mm 13mm 16mm;@bottom-right{content:counter(page) " / " counter(pages);font:8.5pt Arial,sans-serif}}
@media print{body{max-width:none;padding:0;font-size:9.5pt}}
`;
