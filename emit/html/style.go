package html

// style is the page's only style sheet. Pictures are black lines on paper, so
// they keep their white ground in the dark.
const style = `
:root{color-scheme:light dark;--ink:#1c2430;--soft:#5b6675;--ground:#fbfbf9;--line:#cfd4da;--head:#eef1f3}
@media (prefers-color-scheme:dark){:root{--ink:#e6e9ee;--soft:#a3adba;--ground:#15191f;--line:#3a434f;--head:#222932}}
*{box-sizing:border-box}
body{margin:0 auto;padding:1.2rem;max-width:64rem;background:var(--ground);color:var(--ink);font:1rem/1.5 system-ui,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.9rem;line-height:1.2;margin:.4rem 0}
h2{font-size:1.45rem;margin:2.2rem 0 .6rem;padding-top:.8rem;border-top:2px solid var(--ink)}
h3{font-size:1.2rem;margin:2rem 0 .5rem}
h4{font-size:1rem;margin:1.4rem 0 .4rem}
p{margin:.4rem 0;max-width:44rem}
.soft,figcaption{color:var(--soft);font-size:.9rem}
nav a{display:inline-block;margin:.1rem 1rem .1rem 0}
a{color:inherit}
.scroll{overflow-x:auto}
.size{white-space:nowrap}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.3rem .7rem .3rem 0;border-bottom:1px solid var(--line);overflow-wrap:break-word}
thead th{background:var(--head);padding-left:.3rem;font-weight:600}
thead+tbody td{padding-left:.3rem}
td:has(.swatch){min-width:8rem}
tbody th{font-weight:600;width:15rem}
.pictures{display:flex;flex-wrap:wrap;align-items:flex-start;gap:1rem;margin:.8rem 0}
figure{margin:0;flex:0 1 18rem}
figure.sheet{flex-basis:13rem}
figure.wide{flex:1 1 26rem;max-width:46rem}
figure svg,figure img{display:block;width:100%;height:auto;background:#fff;border:1px solid var(--line)}
.swatch{display:inline-block;width:1.2em;height:1.2em;vertical-align:-.25em;margin-right:.5em}
@media (max-width:40rem){body{padding:.8rem}figure,figure.sheet,figure.wide{flex:1 1 100%}.facts tbody th,.facts tbody td{display:block;width:auto}.facts tbody th{border:0;padding-bottom:0}}
@media print{:root{--ink:#000;--soft:#333;--ground:#fff;--line:#999;--head:#eee}body{max-width:none;padding:0;font-size:10pt}nav{display:none}h2,h3,h4{break-after:avoid}figure,tr{break-inside:avoid}figure,figure.sheet{flex:0 1 30%}figure.wide{flex:0 1 48%}}
`

// styleHash is the style sheet's SHA-256 in base 64, by which the policy lets it
// alone in (Content Security Policy Level 3, 6.7.3.3). A test works it out.
const styleHash = "d91tb25kJ7MRxMUHuMPfmlOdw+RFA4/UgzIbF32dSQM="

// policy forbids everything else: scripts, pictures and fonts from anywhere,
// forms, frames, other addresses.
const policy = "default-src 'none'; style-src 'sha256-" + styleHash + "'; base-uri 'none'; form-action 'none'"
