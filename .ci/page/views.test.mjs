// Every view: dark, valid HTML, on a phone, on paper, kept in its address, small.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import { HtmlValidate } from 'html-validate'
import { follow, inSuit, serve, tab } from './browser.mjs'
import { children, each, open, posts, views } from './views.mjs'

const own = serve()

test('dark is dark', async t => {
  const page = await tab(t, own, { colorScheme: 'dark' })
  await page.goto(views.suit)
  const lightness = selector => page.locator(selector).first().evaluate(x => getComputedStyle(x).backgroundColor.match(/\d+/g).slice(0, 3).reduce((a, b) => a + Number(b), 0) / 765)
  for (const part of ['body', '.ask', 'input[type=text]', 'select']) assert.ok(await lightness(part) < 0.25, part)
  await page.emulateMedia({ colorScheme: 'light' })
  for (const part of ['body', '.ask', 'input[type=text]', 'select']) assert.ok(await lightness(part) > 0.85, part)
})

test('the HTML is sound', async t => {
  const check = new HtmlValidate({
    extends: ['html-validate:standard'],
    rules: {
      'doctype-style': ['error', { style: 'lowercase' }],
      'long-title': 'off',
      // Blanks at the ends of lines come from the templates.
      'no-trailing-whitespace': 'off',
      // Attributes without quotes are not ours; void elements are not closed.
      'void-style': ['error', { style: 'omit' }]
    }
  })
  const all = {}
  const look = async (name, answer) => {
    const report = await check.validateString(await answer.text())
    const said = report.results.flatMap(r => r.messages).map(m => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`)
    if (said.length) all[name] = said.slice(0, 12)
  }
  for (const [name, address] of Object.entries(views)) await look(name, await fetch(own.origin + address))
  for (const [name, rows] of Object.entries(posts)) await look(name, await fetch(own.origin + '/rows', { method: 'POST', body: new URLSearchParams({ rows }) }))
  await look('children', await fetch(own.origin + '/children', { method: 'POST', body: new URLSearchParams({ children }) }))
  await look('no children', await fetch(own.origin + '/children', { method: 'POST', body: new URLSearchParams({ children: ' ', sizes: 'x' }) }))
  assert.deepEqual(all, {})
})

test('on a phone', async t => {
  const page = await tab(t, own, { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })
  await each(page, async name => {
    for (const unfolded of [false, true]) {
      if (unfolded) await open(page)
      const wide = await page.evaluate(() => document.scrollingElement.scrollWidth)
      assert.equal(wide, 360, `${name} does not scroll sideways`)
      // Touch targets are at least 24 by 24, or have as much space around them
      // (WCAG 2.2, 2.5.8); fields and buttons of the form are 40 high.
      const small = await page.evaluate(() => [...document.querySelectorAll('a, button, select, summary, input, textarea')].flatMap(x => {
        const target = x.matches('input[type=checkbox]') ? x.parentElement : x
        const { width, height } = target.getBoundingClientRect()
        if (!x.checkVisibility() || x.closest('.skip, figcaption, p:not(.go):not(.brand)')) return [] // links in running text
        const field = x.matches('select, input:not([type=checkbox], [type=file]), .go button, .how, textarea')
        const least = field ? 40 : 24
        return width < 24 || height < least ? [`${x.id || x.textContent.trim()} ${Math.round(width)}×${Math.round(height)}`] : []
      }))
      assert.deepEqual(small, [], `${name}: targets too small to touch`)
    }
  })
  // The way through by touch.
  await page.goto('/')
  await page.getByRole('textbox', { name: 'Height' }).first().tap()
  await page.keyboard.type('110')
  await page.getByLabel('Garment', { exact: true }).selectOption('one-piece-hooded')
  await page.locator('summary', { hasText: 'Part by part' }).tap()
  const number = page.getByRole('region', { name: 'Finished measurements' }).getByRole('row', { name: 'chest, all round' }).getByRole('button').last()
  await number.tap()
  const words = page.locator('[popover]:popover-open')
  await words.waitFor()
  const box = await words.boundingBox()
  assert.ok(box.x >= 0 && box.x + box.width <= 360 && box.y >= 0 && box.y + box.height <= 740, `what a number says is on the screen: ${JSON.stringify(box)}`)
  assert.equal(await page.evaluate(() => document.scrollingElement.scrollWidth), 360)
})

// letters are those below 10 pt on A4, in a drawing as large as it is shown.
async function letters (page) {
  await page.setViewportSize({ width: 680, height: 1000 }) // what A4 has between its margins
  return page.locator('main *:visible').evaluateAll(all => all.filter(x => {
    if (![...x.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) return false
    return parseFloat(getComputedStyle(x).fontSize) * (x.closest('svg') ? x.getScreenCTM().a : 1) < 13.3
  }).map(x => x.outerHTML.slice(0, 80)))
}

test('on paper', async t => {
  const page = await tab(t, own)
  for (const [address, words] of [
    [inSuit(), ' for the neck, loosely'],
    [inSuit({ widths: '', lengths: '', weight: '12.8', chest: '50.5', waist: '48', hip: '51.5', head: '48.5', yarn: '50g 125m', swatch: '10x10cm 4g' }), 'balls'],
    [inSuit({ tape: 'in', over: '4in', craft: 'knit', stitches: '20', rows: '28' }), 'One-piece suit with a hood'],
    ['/?size=6&garment=cardigan&craft=knit&stitches=20&rows=28', 'Cardigan']
  ]) {
    await page.goto(address)
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
    assert.ok(pdf.match(/\/Type\s*\/Page\b/g).length <= 12, `the pattern is a few pages: ${address}`)
    await page.emulateMedia({ media: 'print' })
    const main = await page.locator('body').innerText()
    assert.ok(main.includes(words))
    const small = await letters(page)
    assert.deepEqual(small, [], `no letters below 10 pt: ${address}`)
    assert.equal(await page.locator('input:visible:not(.pattern input), select:visible, nav:visible, .go:visible').count(), 0, 'no form on paper')
    assert.ok(await page.locator('figure.picture svg').isVisible())
    await page.emulateMedia({ media: null })
  }
  await page.goto(inSuit())
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
  assert.equal(await page.locator('body').evaluate(x => getComputedStyle(x).backgroundColor), 'rgb(255, 255, 255)', 'paper is white')
  assert.equal(await page.locator('body').evaluate(x => getComputedStyle(x).color), 'rgb(0, 0, 0)', 'ink is black')
  assert.equal(await page.locator('#r-plan h3').first().evaluate(x => getComputedStyle(x).color), 'rgb(0, 0, 0)')
})

test('designers\' tables on paper, from dark mode', async t => {
  const page = await tab(t, own, { colorScheme: 'dark' })
  await page.goto(views.sizes)
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
  assert.equal(await page.locator('input:visible:not(.pattern input), select:visible, button:visible:not(.num), nav:visible, textarea:visible').count(), 0, 'no form on paper')
  assert.ok(await page.getByRole('region', { name: 'Body measurements by size' }).isVisible())
  assert.deepEqual(await letters(page), [], 'no letters below 10 pt')
  // Black on white: all letters at 7 : 1 at least, on the drawing too.
  for (const address of [views.sizes, views.suit]) {
    await page.goto(address)
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
    const pale = await page.locator('body *:visible').evaluateAll(all => all.flatMap(x => {
      if (![...x.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) return []
      const s = getComputedStyle(x)
      const rgb = (x.closest('svg') ? s.fill : s.color).match(/[\d.]+/g).map(Number)
      const l = rgb.slice(0, 3).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
      const contrast = 1.05 / (0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2] + 0.05)
      return contrast < 7 ? [`${contrast.toFixed(1)} ${x.outerHTML.slice(0, 90)}`] : []
    }))
    assert.deepEqual(pale.slice(0, 5), [], address)
  }
})

test('on paper without scripts the folded is there', async t => {
  const page = await tab(t, own, { javaScriptEnabled: false })
  await page.goto(views.suit)
  await page.emulateMedia({ media: 'print' })
  const words = await page.locator('body').innerText()
  for (const want of [/Ch \d+ for the neck/, /Fasten off/, /Wash it/]) assert.match(words, want)
})

test('nothing is cut at twice the text', async t => {
  for (const width of [360, 768, 1440]) {
    const page = await tab(t, own, { viewport: { width, height: 740 } })
    await each(page, async name => {
      await open(page)
      const cut = await page.evaluate(() => {
        const twice = new CSSStyleSheet()
        twice.replaceSync('html { font-size: 200% }')
        document.adoptedStyleSheets = [twice]
        const out = []
        for (const x of document.querySelectorAll('body *')) {
          if (!x.checkVisibility() || x.closest('.vh, .skip, [popover], svg')) continue
          const box = x.getBoundingClientRect()
          const scrolls = x.closest('.scroll, pre, textarea')
          if (!scrolls && (box.right > innerWidth + 1 || box.left < -1)) out.push(`${x.tagName} ${x.className} ${x.id} reaches ${Math.round(box.right)}`)
          if (getComputedStyle(x).overflowX === 'hidden' && x.scrollWidth > x.clientWidth + 1) out.push(`${x.tagName} ${x.className} is cut`)
        }
        return [document.scrollingElement.scrollWidth > innerWidth ? 'it scrolls sideways' : '', ...out].filter(Boolean)
      })
      assert.deepEqual(cut.slice(0, 5), [], `${name} at ${width}`)
    })
  }
})

test('table and figure side by side', async t => {
  const page = await tab(t, own, { viewport: { width: 1280, height: 900 } })
  await page.goto(views.suit)
  const table = await page.getByRole('region', { name: 'Finished measurements' }).boundingBox()
  const figure = await page.locator('figure.picture').boundingBox()
  assert.ok(figure.x > table.x + table.width - 1 && figure.y < table.y + table.height)
  assert.ok(figure.width > 300)
})

test('the address holds everything', async t => {
  const page = await tab(t, own)
  const other = await tab(t, own)
  const text = async p => {
    const body = await p.locator('body').evaluate(b => [...b.querySelectorAll('[data-live], label, .fault')].map(x => x.textContent.replace(/\s+/g, ' ')))
    const fields = await p.locator('input, select').evaluateAll(all => all.map(x => [x.id, x.type === 'checkbox' ? x.checked : x.value]))
    return { body, fields }
  }
  // Typed in one tab, opened in another profile.
  await page.goto(views.start)
  for (const [name, entry] of [['Age', '5y'], ['Widths from size', '4'], ['Lengths from size', '6'], ['A ball of yarn', '50g 125m'], ['Stitches', '17'], ['Rows', '19'], ['How many times edges stretch', 'neck=1.4, cuff=nonsense']]) {
    await open(page)
    await page.getByLabel(name, { exact: true }).fill(entry)
  }
  await page.getByLabel('Garment', { exact: true }).selectOption('one-piece-hooded')
  await page.getByLabel('Fold back cuffs').check()
  await page.getByLabel('Worn over a nappy').check()
  await page.waitForFunction(() => /nappy=/.test(history.state?.asked) && /option=/.test(history.state?.asked))
  await page.reload()
  await other.goto(await page.locator('footer a.keep').evaluate(a => a.href))
  assert.deepEqual(await text(other), await text(page))
  assert.equal(await other.locator('[aria-invalid]').count(), 1)
  assert.ok(await other.getByLabel('Fold back cuffs').isChecked())
  for (const address of [views['suit in inches'], views['wrong entries'], views.sizes]) {
    await page.goto(address)
    const first = await text(page)
    await page.reload()
    assert.deepEqual(await text(page), first)
    await other.goto(page.url())
    assert.deepEqual(await text(other), first)
  }
  // The maker's state is kept in the link between the views, and by going back.
  await page.goto(views.suit)
  const first = await text(page)
  await follow(page, 'Sizes side by side')
  await page.getByRole('heading', { level: 1, name: 'Sizes side by side' }).waitFor()
  await page.goBack()
  assert.deepEqual(await text(page), first)
})

test('a view weighs at most 250 kB', async t => {
  for (const name of ['start', 'suit', 'sizes', 'several', 'rows']) {
    const page = await tab(t, own)
    const sizes = []
    page.on('response', r => sizes.push(r.body().then(b => b.length, e => {
      if (r.request().resourceType() === 'other') return 0 // the browser's own icon, which a site's worker gave it
      throw e
    })))
    await page.goto(views[name], { waitUntil: 'networkidle' })
    const total = (await Promise.all(sizes)).reduce((a, b) => a + b)
    t.diagnostic(`${name}: ${(total / 1000).toFixed(1)} kB in ${sizes.length} answers`)
    assert.ok(total <= 250_000, `${name} weighs ${total} bytes`)
  }
})
