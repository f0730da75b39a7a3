/**
 * The template of labels in the typesetter's language (Typst). It draws marks where the document says and fits each text
 * into its box. Everything a user wrote comes in as data through `sys.inputs`, and a string taken from data is never read
 * as markup; nothing is spliced into this text. It imports nothing and reads no file.
 *
 * Kept as a string so that the bundle carries it.
 */
export const LABEL_TEMPLATE = `
#let doc = json(bytes(sys.inputs.document))
#let mm(n) = n * 1mm
#let inks = if doc.ink == "black" {
  (ink: black, second: black, signal: black, paper: white)
} else {
  (ink: rgb("#1b2430"), second: rgb("#555e69"), signal: rgb("#a93418"), paper: white)
}
#let faces = (num: ("B612", "DejaVu Sans"), words: ("Barlow", "DejaVu Sans"))
#let widths = (num: 100%, words: 75%)

// Size of the font by the height of its capitals: sCapHeight of the shipped files. Tests measure the print.
#let per-capital = (num: 1 / 0.75, words: 1 / 0.7)
#let set-in(m, size, body) = text(
  font: faces.at(m.face), stretch: widths.at(m.face), weight: m.weight, size: size, fill: inks.at(m.colour),
  top-edge: "cap-height", bottom-edge: "baseline", hyphenate: false, fallback: false, body)
#let sides = (left: left, center: center, right: right)
#let downs = (top: top, horizon: horizon, bottom: bottom)
#let laid(m, size, body) = {
  set par(leading: size * 0.42, justify: false)
  if m.wraps {
    block(width: mm(m.w), align(sides.at(m.across), set-in(m, size, body)))
  } else {
    // As wide as it is, so that rounding never breaks a line that was measured to fit.
    let line = set-in(m, size, body)
    box(width: measure(line).width + 0.01mm, line)
  }
}
#let slack = 0.02mm
// The longest run that cannot be broken must fit too: a block does not tell when it overflows.
#let fits(m, size, body) = {
  let r = measure(laid(m, size, body))
  if r.height > mm(m.h) + slack { return false }
  if not m.wraps { return r.width <= mm(m.w) + slack }
  m.runs.all(run => measure(set-in(m, size, run)).width <= mm(m.w) + slack)
}
#let largest(m, per, body) = {
  if not m.wraps {
    // A line grows with its size, so one measure tells.
    let r = measure(laid(m, mm(m.most) * per, body))
    let part = calc.min(1, mm(m.w) / calc.max(r.width, slack), mm(m.h) / calc.max(r.height, slack))
    return calc.max(m.least, m.most * part)
  }
  let size = m.most
  while size > m.least {
    if fits(m, mm(size) * per, body) { return size }
    size = size * 0.92
  }
  m.least
}
// Cut to what fits, with an ellipsis; letters are counted as people see them.
#let cut(m, size, body) = {
  if fits(m, size, body) { return body }
  let letters = body.clusters()
  let tried = if m.wraps { (..m, runs: ()) } else { m }
  let low = 0
  let high = letters.len()
  while high - low > 1 {
    let mid = calc.quo(low + high, 2)
    if fits(tried, size, letters.slice(0, mid).join("") + "…") { low = mid } else { high = mid }
  }
  if low == 0 { "…" } else { letters.slice(0, low).join("").trim(at: end) + "…" }
}
#let text-mark(m) = context {
  let per = per-capital.at(m.face)
  let size = mm(largest(m, per, m.text)) * per
  let body = cut(m, size, m.text)
  box(width: mm(m.w), height: mm(m.h), align(sides.at(m.across) + downs.at(m.down), laid(m, size, body)))
}

// One outline of all dark runs, so that no light line shows between rows.
#let qr-mark(m) = {
  let unit = mm(m.w) / m.side
  curve(fill: black, stroke: none, fill-rule: "non-zero", ..m.runs.map(((x, y, n)) => (
    curve.move((x * unit, y * unit)),
    curve.line((n * unit, 0mm), relative: true),
    curve.line((0mm, unit), relative: true),
    curve.line((-n * unit, 0mm), relative: true),
    curve.close(mode: "straight"),
  )).flatten())
}

#let hand-mark(m) = {
  let (w, h) = (mm(m.w), mm(m.h))
  let points = if m.hand == "L" { ((w, 0mm), (0mm, h / 2), (w, h)) }
    else if m.hand == "R" { ((0mm, 0mm), (w, h / 2), (0mm, h)) }
    else { ((w / 2, 0mm), (w, h / 2), (w / 2, h), (0mm, h / 2)) }
  polygon(fill: inks.ink, stroke: none, ..points)
}

#let hatch-mark(m) = {
  let (w, h) = (mm(m.w), mm(m.h))
  let step = h * 0.9
  box(width: w, height: h, clip: true, for i in range(-2, calc.ceil(w / step) + 1) {
    place(top + left, dx: i * step, polygon(fill: inks.at(m.colour), stroke: none,
      (h, 0mm), (h + step / 2, 0mm), (step / 2, h), (0mm, h)))
  })
}

#let hole-mark(m) = {
  let r = mm(m.w) / 2
  place(top + left, circle(radius: r, stroke: 0.25mm + inks.ink))
  place(top + left, dx: r / 2, dy: r / 2,
    circle(radius: r / 2, stroke: (paint: inks.ink, thickness: 0.25mm, dash: (0.8mm, 0.6mm))))
  place(top + left, dx: r - 0.8mm, dy: r, line(length: 1.6mm, stroke: 0.15mm + inks.ink))
  place(top + left, dx: r, dy: r - 0.8mm, line(length: 1.6mm, angle: 90deg, stroke: 0.15mm + inks.ink))
}

#let draw(m) = {
  if m.kind == "text" { text-mark(m) }
  else if m.kind == "qr" { qr-mark(m) }
  else if m.kind == "hand" { hand-mark(m) }
  else if m.kind == "fill" { rect(width: mm(m.w), height: mm(m.h), fill: inks.at(m.colour), stroke: none) }
  else if m.kind == "frame" {
    let t = mm(m.line)
    place(top + left, dx: t / 2, dy: t / 2,
      rect(width: mm(m.w) - t, height: mm(m.h) - t, fill: none, stroke: t + inks.at(m.colour)))
  }
  else if m.kind == "hatch" { hatch-mark(m) }
  else { hole-mark(m) }
}

#set document(title: doc.title, author: (), date: auto)
#set page(width: mm(doc.page.w), height: mm(doc.page.h), margin: 0mm)
#set text(lang: "en")
#for (i, page) in doc.pages.enumerate() {
  if i > 0 { pagebreak() }
  for l in page {
    place(top + left, dx: mm(l.x), dy: mm(l.y), box(width: mm(l.w), height: mm(l.h), clip: true,
      for m in l.marks { place(top + left, dx: mm(m.x), dy: mm(m.y), draw(m)) }))
  }
}
`;
