// The drawings of the page: where to measure, and the garment.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import { serve, tab } from './browser.mjs'

const own = serve()
const suit = '/?sex=f&age=4.5&height=110.5&chest=53&garment=one-piece-hooded&layer=winter&stitches=16&rows=18&craft=crochet'

test('every field for a measurement lights its tape, with words beside it', async t => {
  const page = await tab(t, own)
  await page.goto(suit)
  await page.evaluate(() => { for (const x of document.querySelectorAll('details')) x.open = true })
  const fields = await page.$$eval('.measures input[data-unit]', all => all.filter(x => !x.name.startsWith('extra')).map(x => x.name))
  assert.equal(fields.length, await page.$$eval('.views [data-measure]', all => all.length))
  for (const name of fields) {
    await page.focus(`input[name="${name}"]`)
    const lit = await page.$eval('.lit-tape', x => ({
      tapes: [...x.querySelectorAll('.lit')].map(g => g.dataset.measure),
      number: x.querySelector('.lit text').textContent,
      words: x.textContent
    }))
    assert.deepEqual(lit.tapes, [name])
    assert.equal(lit.number, await page.$eval(`label[for="${name}"] .no`, x => x.textContent))
    assert.match(lit.words, /What goes wrong: /)
  }
  await page.focus('#garment')
  assert.equal(await page.$('.lit-tape'), null)
})

test('boys, girls and babies have figures of their own, sent when they change', async t => {
  const page = await tab(t, own)
  const figure = () => page.$eval('.views', x => x.innerHTML)
  await page.goto('/?sex=f&height=110')
  const girl = await figure()
  await page.selectOption('#sex', 'm')
  await page.waitForFunction(was => document.querySelector('.views').innerHTML !== was, girl)
  const boy = await figure()
  await page.fill('#age', '9m')
  await page.waitForFunction(was => document.querySelector('.views').innerHTML !== was, boy)
})

test('a part lights up in the drawing and in the tables together', async t => {
  const page = await tab(t, own)
  await page.goto(suit)
  await page.evaluate(() => { for (const x of document.querySelectorAll('details')) x.open = true })
  await page.hover('.picture [data-part="hip"] text')
  const lit = await page.$$eval('.lit-part', all => all.map(x => x.tagName.toLowerCase() + ' ' + x.dataset.part))
  assert.ok(lit.includes('g hip') && lit.filter(x => x === 'tr hip').length === 2, lit.join(', '))
  const letters = await page.evaluate(() => Object.fromEntries([...document.querySelectorAll('.picture [data-part]')].map(g => [g.dataset.part, g.querySelector('tspan').textContent])))
  for (const [part, letter] of await page.$$eval('tr[data-part]', all => all.map(x => [x.dataset.part, x.querySelector('.letter').textContent]))) {
    assert.equal(letter, letters[part] ?? letter, part)
  }
})

test('the drawings are legible on a phone', async t => {
  for (const yoke of ['circular', 'raglan', 'drop-shoulder']) {
    for (const garment of ['pullover', 'trousers', 'one-piece-hooded', 'mittens']) {
      const page = await tab(t, own, { viewport: { width: 360, height: 740 } })
      await page.goto(`/?height=110&chest=56&garment=${garment}&yoke=${yoke}`)
      await page.evaluate(() => { for (const x of document.querySelectorAll('details')) x.open = true })
      const small = await page.$$eval('.picture .schematic-label', all => all.filter(x => x.getBoundingClientRect().height < 9.5).map(x => x.textContent))
      assert.deepEqual(small, [], `${garment}, ${yoke}`)
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth))
    }
  }
})

test('without a pattern the print is of where to measure', async t => {
  const page = await tab(t, own)
  await page.goto('/')
  await page.emulateMedia({ media: 'print' })
  assert.ok(await page.isVisible('.views [data-measure="chest"]'))
  assert.ok(!await page.isVisible('#height'))
})
