// By keyboard and by ear: few stops, a whole ring round what has the focus, names that say
// what they are of, and an order to read in that is the order to work in.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import { inSuit, serve, tab } from './browser.mjs'
import { open } from './views.mjs'

const own = serve()

// heard lists what a screen reader comes to, in its order: role, name and description.
async function heard (page) {
  const client = await page.context().newCDPSession(page)
  const { nodes } = await client.send('Accessibility.getFullAXTree')
  const by = new Map(nodes.map(n => [n.nodeId, n]))
  const all = []
  const walk = n => {
    if (!n.ignored) all.push({ role: n.role?.value, name: n.name?.value ?? '', description: n.description?.value ?? '', invalid: n.properties?.find(p => p.name === 'invalid')?.value.value })
    for (const id of n.childIds ?? []) if (by.has(id)) walk(by.get(id))
  }
  walk(nodes[0])
  return all
}

test('the order to read in is the order to work in', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit({ hip: 'wide', yarn: '50g 125m' }))
  await open(page)
  const all = await heard(page)
  const headings = all.filter(x => x.role === 'heading').map(x => x.name)
  const want = ['A garment that fits this child', 'The child', 'Where the child is on the chart', 'The garment', 'Finished measurements', 'The gauge', 'Checks and cautions', /^For the care of the child/, 'The pattern',
    'Finished sizes', 'Materials', 'Gauge', 'Abbreviations', 'How it is made', /^Back of the neck/, /^Yoke/, /^Body/, /^Front edges/, 'Finishing', 'Take it along', 'Sources']
  let at = -1
  for (const one of want) {
    const next = headings.findIndex((h, i) => i > at && (one instanceof RegExp ? one.test(h) : h === one))
    assert.ok(next > at, `${one} comes after ${headings[at]}: ${headings}`)
    at = next
  }
  // The list of what needs a look comes before the form, with a link; the field says why.
  const link = all.findIndex(x => x.role === 'link' && x.name === 'Hip girth')
  const field = all.findIndex(x => x.role === 'textbox' && x.name === 'Hip girth cm')
  assert.ok(link > 0 && link < field)
  assert.match(all[field].description, /"wide" is not a measurement/)
  assert.equal(all[field].invalid, 'true')
  // Every number, box and button says what it is of.
  const bare = all.filter(x => ['button', 'checkbox', 'textbox', 'combobox', 'link', 'region', 'group', 'table', 'image'].includes(x.role) && !/[A-Za-z]{3}|^(Fit|Age|Row)/.test(x.name) && !/^\d+ \d+/.test(x.name))
  assert.deepEqual(bare.filter(x => x.role !== 'group'), [])
  const numbers = all.filter(x => x.role === 'button' && /: [-−+]?[\d ⅛¼½¾/.]+( \w+)?$/.test(x.name))
  assert.ok(numbers.length > 80)
  const chest = (await page.getByRole('region', { name: 'Finished measurements' }).getByRole('row', { name: 'chest, all round' }).getByRole('button').last().innerText()).trim()
  assert.ok(chest > 60 && numbers.some(x => x.name === `chest, all round, finished, cm: ${chest}`), numbers.slice(0, 30).map(x => x.name).join('\n'))
  // A table has a caption and heads; the drawing says what it is of.
  for (const table of all.filter(x => x.role === 'table')) assert.ok(table.name.length > 10)
  assert.ok(all.some(x => x.role === 'image' && /drawn to scale/.test(x.name)))
  assert.equal(all.filter(x => x.role === 'status').length, 1)
  assert.equal(all.filter(x => x.role === 'alert').length, 0)
})

test('few stops: one a table, one for the rows of an instruction', async t => {
  const page = await tab(t, own)
  const stops = () => page.evaluate(() => [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')].filter(x => x.tabIndex >= 0 && !x.disabled && x.type !== 'hidden' && x.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true })).length)
  await page.goto(inSuit())
  const n = await stops()
  t.diagnostic(`${n} stops with a plan, of them ${await page.locator('.num:visible').count()} numbers that are one stop a table`)
  assert.ok(n <= 110, `${n} stops`)
  await page.getByRole('button', { name: 'Open all' }).click()
  const groups = await page.locator('[data-rove]').evaluateAll(all => all.filter(x => x.checkVisibility()).map(x => [...x.querySelectorAll('button.num, input')].filter(y => y.tabIndex >= 0).length))
  assert.ok(groups.length > 15)
  assert.ok(groups.every(x => x === 1), `${groups}`)
  // In the boxes of rows the arrow keys go on and back.
  const boxes = page.locator('#p-leg .rows').first().locator('input')
  await boxes.first().focus()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Space')
  assert.ok(await boxes.nth(2).isChecked())
  await page.keyboard.press('End')
  assert.ok(await boxes.last().evaluate(x => x === document.activeElement))
  await page.keyboard.press('ArrowRight')
  assert.ok(await boxes.last().evaluate(x => x === document.activeElement), 'it ends there')
  // After an edit the stops are as before.
  await page.getByLabel('Stitches', { exact: true }).fill('18')
  await page.waitForFunction(() => /stitches=18/.test(history.state?.asked))
  assert.ok((await page.locator('[data-rove]').evaluateAll(all => all.map(x => [...x.querySelectorAll('button.num, input')].filter(y => y.tabIndex >= 0).length))).every(x => x === 1))
})

test('the ring round what has the focus is whole', async t => {
  const page = await tab(t, own)
  await page.goto('/')
  for (const selector of ['#height', '#height ~ button', '#sex', '#garment', '#stitches', '.here a', 'summary']) {
    const one = page.locator(selector).first()
    await one.focus()
    await page.keyboard.press('Shift+Tab')
    await page.keyboard.press('Tab') // by keyboard, so that the ring shows
    const box = await one.boundingBox()
    const { off, width, colour } = await one.evaluate(x => { const s = getComputedStyle(x); return { off: parseFloat(s.outlineOffset), width: parseFloat(s.outlineWidth), colour: s.outlineColor } })
    assert.ok(width >= 2, selector)
    const pad = 8
    const shot = await page.screenshot({ clip: { x: Math.max(0, box.x - pad), y: box.y - pad, width: box.width + 2 * pad, height: box.height + 2 * pad } })
    const whole = await page.evaluate(async ([png, left, w, h, pad, ring, colour]) => {
      const image = await createImageBitmap(new Blob([Uint8Array.from(atob(png), c => c.charCodeAt(0))], { type: 'image/png' }))
      const canvas = new OffscreenCanvas(image.width, image.height)
      const c = canvas.getContext('2d', { willReadFrequently: true })
      c.drawImage(image, 0, 0)
      const want = colour.match(/\d+/g).map(Number)
      const is = (x, y) => { const p = c.getImageData(Math.round(x), Math.round(y), 1, 1).data; return want.slice(0, 3).every((v, i) => Math.abs(v - p[i]) < 40) }
      let good = 0; let n = 0
      for (let x = left + 4; x < left + w - 4; x += 2) for (const y of [pad - ring, pad + h + ring - 1]) { n++; good += is(x, y) }
      for (let y = pad + 4; y < pad + h - 4; y += 2) for (const x of [left - ring, left + w + ring - 1]) { n++; good += is(x, y) }
      return good / n
    }, [shot.toString('base64'), Math.min(pad, box.x), box.width, box.height, pad, off + width / 2, colour])
    assert.ok(whole > 0.95, `${selector}: ${(whole * 100).toFixed(0)} % of the ring is seen`)
  }
})
