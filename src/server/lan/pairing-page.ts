/**
 * The pairing page: all that a stranger on the network sees. One self-contained sheet in our look (a test compares its
 * colours with src/web/look/tokens.css), large fields for gloves, and the way to trust the shop's authority per kind of
 * phone. It works without its script, which only takes the code from the link and carries it on to the TLS links.
 * Menus of phones are common practice as of 2025, no source; makers move them.
 */
import type { Problem } from '../../domain/problem.ts';

export interface PairingPageParts {
  readonly shop: string;
  readonly over: 'plain' | 'tls';
  readonly fingerprint: string;
  readonly tlsLinks: readonly string[];
  /** Name of this device where it is paired already. */
  readonly device: string | null;
  readonly problem: Problem | null;
}

export const DAY_COLOURS = { paper: '#f6f3ea', ink: '#1b2430', 'ink-2': '#555e69', hair: '#cbc5b4', signal: '#a93418' };
export const NIGHT_COLOURS = {
  paper: '#0f1e2c',
  ink: '#dfe8ee',
  'ink-2': '#9db0bf',
  hair: '#2d4659',
  signal: '#ff8a5c',
};

const variables = (colours: Readonly<Record<string, string>>): string =>
  Object.entries(colours)
    .map(([name, value]) => `--${name}:${value}`)
    .join(';');

const STYLE = `:root{${variables(DAY_COLOURS)};color-scheme:light}
@media(prefers-color-scheme:dark){:root{${variables(NIGHT_COLOURS)};color-scheme:dark}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:36rem;padding:24px 20px 64px;background:var(--paper);color:var(--ink);font:18px/1.45 "Source Sans 3",system-ui,sans-serif}
h1,h2,summary{font-family:"Barlow Condensed","Arial Narrow",sans-serif;font-weight:600;line-height:1.15}
h1{font-size:34px;margin:4px 0 16px}h2{font-size:24px;margin:36px 0 8px;padding-top:12px;border-top:1.5px solid var(--ink)}
.eyebrow{margin:0;font:500 15px/1.2 "Barlow Condensed","Arial Narrow",sans-serif;letter-spacing:.08em;text-transform:uppercase;color:var(--ink-2)}
label{display:block;margin:14px 0 4px;color:var(--ink-2)}
input{width:100%;min-height:56px;padding:8px 12px;font:inherit;color:inherit;background:transparent;border:1.5px solid var(--ink);border-radius:0}
#code{font:28px/1.2 B612,ui-monospace,monospace;letter-spacing:.12em;text-transform:uppercase}
button,.key{display:block;width:100%;min-height:56px;margin-top:18px;padding:12px;font:600 20px/1.4 "Barlow Condensed","Arial Narrow",sans-serif;text-align:center;text-decoration:none;color:var(--paper);background:var(--ink);border:1.5px solid var(--ink);border-radius:0}
.key.plain{color:var(--ink);background:transparent}a{color:inherit;overflow-wrap:anywhere}
:focus-visible{outline:3px solid var(--signal);outline-offset:2px}
.told{padding:10px 14px;border-left:6px solid var(--signal);color:var(--signal);font-weight:600}
.mind{padding:10px 14px;border-left:6px solid var(--ink)}
summary{min-height:56px;padding:14px 0;font-size:21px;border-top:.75px solid var(--hair)}li{margin:6px 0}
code{display:block;padding:10px 0;font:17px/1.6 B612,ui-monospace,monospace;overflow-wrap:anywhere}`;

/** Same-origin only; the code after `#` is put into the field and onto the links, and taken out of the address bar. */
export const PAIRING_SCRIPT = `'use strict';
(function () {
  // The same form, sent by the page: so it can keep the token with which it reaches the shop at another address.
  var form = document.querySelector('form');
  if (form && window.fetch) form.addEventListener('submit', function (event) {
    event.preventDefault();
    var body = JSON.stringify({ code: form.elements.code.value, name: form.elements.name.value });
    fetch('/pair', { method: 'POST', headers: { 'content-type': 'application/json' }, body: body })
      .then(function (answer) {
        return answer.json().then(function (told) {
          if (!answer.ok) return tell(told.message + '. ' + told.remedy);
          try {
            localStorage.setItem('witnessmark-token', told.token);
            localStorage.setItem('witnessmark-device', told.device.id);
          } catch (nothingKept) { /* The cookie is enough for this address. */ }
          location.replace('/');
        });
      })
      .catch(function () { tell('The shop’s machine does not answer. Look whether this device is on its network.'); });
  });
  function tell(words) {
    var told = document.querySelector('.told') || form.parentNode.insertBefore(document.createElement('p'), form);
    told.className = 'told';
    told.setAttribute('role', 'alert');
    told.textContent = words;
  }
})();
(function () {
  var code = decodeURIComponent(location.hash.slice(1)).toUpperCase();
  if (!/^[A-Z0-9-]{8,9}$/.test(code)) return;
  var field = document.getElementById('code');
  if (field) field.value = code;
  document.querySelectorAll('a[data-carry]').forEach(function (a) { a.href = a.href.split('#')[0] + '#' + code; });
  history.replaceState(null, '', location.pathname);
})();
`;

export function pairingPage(p: PairingPageParts): string {
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<link rel="icon" href="data:,"><title>Pair this device · ${text(p.shop)}</title>
<style>${STYLE}</style><script src="/pair.js" defer></script></head>
<body><p class="eyebrow">Witnessmark · ${text(p.shop)}</p><h1>Pair this device</h1>
${p.problem ? `<p class="told" role="alert">${text(p.problem.message)}. ${text(p.problem.remedy)}</p>` : ''}
${p.device === null ? '' : `<p class="mind">This device is paired as “${text(p.device)}”.</p><a class="key" href="/">Go to the first page</a>`}
${p.over === 'plain' ? choice(p) : ''}
${form(p.over)}
${trust(p)}
</body></html>
`;
}

function choice(p: PairingPageParts): string {
  const links = p.tlsLinks
    .map(
      (l, i) =>
        `<a class="key${i === 0 ? '' : ' plain'}" data-carry href="${text(l)}">${text(l.replace(/^https:\/\/|\/pair$/g, ''))}</a>`,
    )
    .join('\n');
  return `<p>To work where there is no Wi-Fi, and so that nobody can listen in: first trust this shop (below), then go on to the
locked address. Your code comes with you.</p>
${links}
<h2>Or only while connected</h2>
<p>This address is not locked: whoever listens on this Wi-Fi can read what you record and pretend to be this device until
it is shut out. Use it for taking pictures and notes on your shop’s own Wi-Fi, nowhere else.</p>`;
}

function form(over: 'plain' | 'tls'): string {
  return `<form method="post" action="/pair" autocomplete="off">
<label for="code">Code from the shop’s machine</label>
<input id="code" name="code" required maxlength="20" autocapitalize="characters" spellcheck="false" placeholder="ABCD-EFGH">
<label for="name">What this device is called</label>
<input id="name" name="name" required maxlength="60" placeholder="Floor tablet">
<button>${over === 'tls' ? 'Pair' : 'Pair, only while connected'}</button></form>`;
}

function trust(p: PairingPageParts): string {
  return `<h2>Trust this shop, once on each device</h2>
<p class="mind"><strong>Do this only in the shop, with its screen in front of you.</strong> Before you say yes, compare this
fingerprint with the one that the shop’s own machine shows. Where they differ, stop and tell whoever runs the machine.</p>
<code>${text(p.fingerprint).replace(/:/g, ':<wbr>')}</code>
<p>Trusting it lets this shop’s machine show you its own locked pages. It can vouch only for names that end in .local,
.home.arpa and .internal, and for addresses; not for your bank, your mail or any other site by name.</p>
<a class="key plain" href="/ca.crt">Fetch the shop’s certificate</a>
<details><summary>iPhone, iPad</summary><ol><li>Fetch the certificate in Safari and allow the profile.</li>
<li>Settings → General → VPN &amp; Device Management → the profile → Install.</li>
<li>Settings → General → About → Certificate Trust Settings: switch it on.</li></ol></details>
<details><summary>Android</summary><ol><li>Fetch the certificate; it goes to the downloads.</li>
<li>Settings → Security → More, or Encryption → Install a certificate → CA certificate → the file.</li>
<li>Android warns that the network may be watched: that is why the fingerprint is compared first.</li></ol></details>
<details><summary>Laptop, other tablets</summary><ol><li>Windows: open the file → Install → Local machine → Trusted Root
Certification Authorities.</li><li>macOS: open the file in Keychain Access, then set Trust to Always.</li>
<li>Firefox: Settings → Privacy &amp; Security → Certificates → View → Authorities → Import.</li></ol></details>
<p>To end it: remove the certificate in the same place.</p>`;
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function text(value: string): string {
  return value.replace(/[&<>"']/g, (c) => ESCAPES[c] ?? c);
}
