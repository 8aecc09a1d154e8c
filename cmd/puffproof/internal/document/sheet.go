package document

// sheet is the style of the HTML file. Contrasts are at least 4.5 to 1 on white
// (WCAG 2.2, 1.4.3); no meaning rests on a colour: every tone comes with its word.
func sheet() string {
	return `:root{--ink:#1a1a1a;--soft:#4a4a4a;--rule:#b5b5b5;--bad:#9d0019;--open:#7a4b00;--good:#00603a;--kept:#004a86}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;color:var(--ink);background:#fff}
body{font:16px/1.45 Arial,"Liberation Sans",Helvetica,sans-serif;margin:0 auto;padding:0 16px 32px;max-width:1080px;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.2;margin:.6em 0 .4em}
h2{font-size:1.3rem;line-height:1.25;margin:1.6em 0 .5em;border-bottom:2px solid var(--ink);padding-bottom:.15em}
h3{font-size:1.08rem;margin:1.4em 0 .4em}
h4{font-size:1rem;margin:1em 0 .3em}
p{margin:.5em 0}
a{color:#004a86}
code,pre{font-family:"Liberation Mono","DejaVu Sans Mono",Consolas,monospace;font-size:.86em}
.skip{position:absolute;left:-9999px}
.skip:focus{left:8px;top:8px;background:#fff;padding:4px;z-index:2}
.running,.reminder{font-weight:bold;margin:0;padding:.45em .7em;border-left:8px solid var(--soft);background:#f2f2f2}
.running{position:sticky;top:0;z-index:1;border-radius:0 0 4px 4px}
.reminder{font-size:.85rem;padding:.25em .6em}
.running.bad,.reminder.bad,.callout.bad{border-color:var(--bad);background:#fdeef0;color:#6d0011}
.running.open,.reminder.open,.callout.open{border-color:var(--open);background:#fff6e3;color:#5c3900}
.running.good,.reminder.good,.callout.good{border-color:var(--good);background:#e9f6ef;color:#00492c}
.callout{border:2px solid;border-left-width:10px;padding:.3em .9em .5em;margin:.8em 0;border-radius:4px}
.callout h2{border:0;margin:.3em 0;padding:0}
.callout p{color:var(--ink)}
p.faint,tr.faint{color:var(--soft)}
p.bad{border-left:4px solid var(--bad);padding-left:.5em}
p.open{border-left:4px solid var(--open);padding-left:.5em}
p.kept{border-left:4px double var(--kept);padding-left:.5em}
.contents{border:1px solid var(--rule);border-radius:4px;padding:.2em .9em;margin:.8em 0;font-size:.92rem}
.contents ul{columns:16em;list-style:none;padding:0;margin:.4em 0}
.contents li{margin:.25em 0}
.contents a{display:inline-block;padding:.2em 0}
ul{padding-left:1.3em}
li{margin:.3em 0}
ul.boxes{list-style:none;padding-left:0}
ul.boxes li{padding-left:1.9em;position:relative;min-height:1.5em}
ul.boxes li::before{content:"";position:absolute;left:0;top:.1em;width:1.1em;height:1.1em;border:1.5px solid var(--ink)}
.form{margin:.8em 0}
.form div{display:flex;flex-wrap:wrap;gap:.2em .8em;border-bottom:1px solid var(--rule);padding:.5em 0 .2em;min-height:2.3em}
.form dt{font-weight:bold;flex:0 1 19em}
.form dd{margin:0;flex:1 1 10em;min-width:0}
.blank{display:inline-block;width:100%;height:1em}
table{border-collapse:collapse;width:100%;margin:.3em 0 1.2em;font-size:.86rem;line-height:1.35}
.caption{font-weight:bold;margin:.9em 0 .3em;font-size:.92rem}
th,td{border:1px solid var(--rule);padding:.3em .45em;text-align:left;vertical-align:top}
thead th{background:#ececec;border-bottom:2px solid var(--soft)}
tbody th{font-weight:normal}
tr.bad>th:first-child{border-left:6px solid var(--bad)}
tr.open>th:first-child{border-left:6px solid var(--open)}
tr.good>th:first-child{border-left:6px solid var(--good)}
tr.kept>th:first-child{border-left:6px double var(--kept)}
table.narrow{width:auto;min-width:min(100%,20em)}
table.narrow td{font-variant-numeric:tabular-nums}
table.blanks td,table.blanks tbody th{height:2.3em}
figure{margin:1em 0}
.aside{float:right;width:30mm;margin:0 0 .5em 1.2em}
.aside+.caption+table{width:auto;max-width:calc(100% - 36mm)}
.figures{display:flex;flex-wrap:wrap;gap:0 1.2em}
.figures .drawing{flex:1 1 19em;min-width:0}
.figures .whole{flex-basis:100%}
figcaption{font-size:.86rem;color:var(--soft);margin:.3em 0}
.drawing svg{display:block;width:100%;height:auto}
.raw pre{border:1px solid var(--rule);padding:.6em;white-space:pre-wrap;overflow-wrap:anywhere;margin:.3em 0;tab-size:4}
.space{border:1.5px dashed var(--soft);margin:.8em 0;padding:0 .5em;color:var(--soft);font-size:.86rem}
footer{border-top:1px solid var(--rule);margin-top:2em;font-size:.8rem;color:var(--soft)}
.card h1{font-size:1.9rem;margin:.3em 0}
.card{font-size:18px}
@media screen and (max-width:640px){
body{padding:0 12px 24px}
table.wide,table.wide tbody,table.wide tr,table.wide td,table.wide tbody th,
table.blanks,table.blanks tbody,table.blanks tr,table.blanks td,table.blanks tbody th{display:block;width:100%}
table.wide thead,table.blanks thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
table.wide tr,table.blanks tr{border:1px solid var(--rule);margin:0 0 .7em;border-radius:3px}
table.wide td,table.wide tbody th,table.blanks td,table.blanks tbody th{
border:0;border-bottom:1px solid #e2e2e2;height:auto;min-height:1.9em}
table.wide tbody th,table.blanks tbody th{background:#f4f4f4}
table.wide td[data-label]:not([data-label=""])::before,table.blanks td[data-label]:not([data-label=""])::before{
content:attr(data-label) ": ";font-weight:bold}
}
@media print{
body{font-size:9.6pt;line-height:1.34;max-width:none;padding:0 1px}
header .running,.contents,.skip,footer{display:none}
.card header .running{display:none}
h1{font-size:16pt;margin:0 0 2mm}
h2{font-size:13pt;margin:4mm 0 2mm;break-after:avoid}
h3{font-size:11pt;margin:3mm 0 1.5mm;break-after:avoid}
h4,.caption{break-after:avoid}
section.page,h3.page{break-before:page}
section.page>h2{margin-top:0}
.reminder{margin-bottom:2mm}
table{font-size:7.7pt;line-height:1.22;margin:1mm 0 3mm}
th,td{padding:.7mm 1mm}
.caption{font-size:9pt;margin:2.5mm 0 1mm}
.drawing{flex-basis:70mm}
thead{display:table-header-group}
tr,li,.callout,.drawing,.form div,table.narrow{break-inside:avoid}
.reminder{font-size:8pt;break-after:avoid}
p{orphans:3;widows:3;margin:1.5mm 0}
.callout{margin:2mm 0;padding:1mm 3mm}
.callout h2{font-size:12.5pt;margin:1mm 0}
.form div{min-height:8.5mm;padding:1.5mm 0 0}
.raw pre{font-size:7.5pt;border:0;border-left:2px solid var(--rule)}
.drawing{margin:2mm 0}
.space{height:var(--least)!important;break-inside:avoid;margin:2mm 0}
.running,.reminder,.callout,thead th{-webkit-print-color-adjust:exact;print-color-adjust:exact}
a{color:inherit;text-decoration:none}
.card{font-size:12pt;line-height:1.27}
.card h1{font-size:16pt;margin:0 0 1mm}
.card h2{margin:2.5mm 0 .8mm}
.card table{font-size:12pt;width:100%}
.card li{margin:.7mm 0}
.card .form div{min-height:9mm}
}
`
}
