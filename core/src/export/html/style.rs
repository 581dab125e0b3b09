//! The style sheet of the HTML file: daylight ink on white, two A4 pages in print.

/// The rules. Ink classes give drawings their colour; see [`svg`](crate::export::svg).
pub const SHEET: &str = "\
:root{color-scheme:light;--ink:#10151b;--soft:#39424d;--line:#c9ced4;--band:#f1f2ee;--accent:#ffc233;--paper:#fff}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.4 system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans',sans-serif}
main{max-width:46rem;margin:0 auto;padding:1.25rem 1.25rem 2rem;border-left:4px solid var(--accent);overflow-wrap:break-word}
h1{font-size:1.5rem;line-height:1.2;margin:0 0 .75rem}
h2{font-size:1.05rem;margin:1.25rem 0 .4rem;padding-top:.5rem;border-top:1px solid var(--line)}
h3{font-size:1rem;margin:.6rem 0 .1rem}
p{margin:.15rem 0 .5rem}
ul{margin:.15rem 0 .5rem;padding-left:1.2rem}
dl{margin:0}
dl div{display:grid;grid-template-columns:9rem 1fr;gap:.75rem;padding:.1rem 0}
dt{color:var(--soft)}
dd{margin:0}
.alert{border:2px solid var(--ink);background:var(--accent);padding:.5rem .75rem;font-weight:600}
.grade{font-weight:700;display:inline-block;margin-left:.3em;font-size:.92em}
.mark{width:.9em;height:.9em;vertical-align:-.08em}
.graded{break-inside:avoid}
.table{overflow-x:auto}
table{border-collapse:collapse;width:100%;margin:.75rem 0;font-variant-numeric:tabular-nums;break-inside:avoid}
caption{text-align:left;padding-bottom:.1em;color:var(--soft)}
th,td{text-align:left;padding:.2rem .5rem .2rem 0;border-bottom:1px solid var(--line);vertical-align:top}
tbody th{font-weight:400}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(17rem,1fr));gap:.75rem 1.5rem}
figure{margin:0;break-inside:avoid}
figcaption{font-weight:600;margin-bottom:.2rem}
.figure{display:block;width:100%;max-width:26rem;height:auto}
.note{color:var(--soft);font-size:.85rem}
.ink-strong{color:var(--ink)}
.ink-soft{color:var(--soft)}
.ink-accent{color:var(--accent)}
.ink-band{color:var(--band)}
.ink-paper{color:var(--paper)}
@media (max-width:34rem){
main{padding:1rem}
dl div{grid-template-columns:5.2rem 1fr;gap:.6rem;padding:.15rem 0}
table{font-size:.78rem}
th,td{padding-right:.25rem}
}
@page{size:A4;margin:11mm 13mm}
@media print{
body{font-size:8.8pt;line-height:1.25;-webkit-print-color-adjust:exact;print-color-adjust:exact}
main{max-width:none;padding:0;border:0}
h1{font-size:14pt;margin:0 0 4pt}
h2{font-size:9.6pt;margin:4pt 0 1pt;padding-top:3pt;break-after:avoid}
h3{font-size:8.8pt;margin:0;break-after:avoid}
p,ul{margin:0 0 2pt}
dl div{grid-template-columns:28mm 1fr;gap:3mm;padding:0}
.graded{margin-bottom:2pt}
table{margin:2pt 0 3pt}
th,td{padding:.5pt 6pt .5pt 0}
.figures{grid-template-columns:repeat(3,1fr);gap:3pt 6mm}
.figure{max-width:60mm}
.note{font-size:6.9pt;line-height:1.2;margin-bottom:1.5pt}
}
";
