// A maker: from a long, slim baby between sizes to a plan in stitches and its
// checks.
import assert from 'node:assert/strict'
import { readFile } from 'node:fs/promises'
import { test } from 'node:test'
import { open as unfold } from './views.mjs'
import { cells, findings, growtuck, halves, inSuit, listed, serve, settled, status, suit, suitFlags, tab, typed } from './browser.mjs'

const own = serve()

test('from the child to the plan and its checks', async t => {
  const page = await tab(t, own)
  await page.goto('/')
  await page.getByLabel('The child is').selectOption({ label: 'boy' })
  await page.getByLabel('Age').fill('22m')
  await page.getByRole('textbox', { name: 'Height' }).first().fill('89,5 cm')
  await page.getByRole('textbox', { name: 'Arm length, shoulder to wrist' }).fill('28.5')
  await page.getByRole('textbox', { name: 'Inside leg' }).fill('35')
  await settled(page, { inside_leg: '35' })
  await page.getByText('Or start from a size').click()
  await page.getByLabel('Widths from size').fill('2')
  await page.getByLabel('Lengths from size').fill('3')
  await settled(page, { widths: '2', lengths: '3' })

  const stands = page.getByRole('region', { name: 'Where the child is on the chart' })
  const own3 = (await cells(stands.getByRole('table'))).filter(r => ['height', 'arm length, shoulder to wrist', 'inside leg'].includes(r[0]))
  assert.deepEqual(own3.map(r => [r[1], r[2]]), [['89.5', '2.4'], ['28.5', '2.5'], ['35.0', '2.2']])
  assert.equal(await stands.locator('tr.own .dot').count(), 3, 'a dot for each measurement taken')
  await page.locator('#r-child').getByText('Widths from size 2, lengths from size 3').waitFor()

  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'One-piece suit with a hood' })
  await page.getByLabel('Worn over', { exact: true }).selectOption({ label: 'winter clothes' })
  await page.getByLabel('Room to grow for').selectOption({ label: 'half a year' })
  await settled(page, { garment: 'one-piece-hooded', layer: 'winter', growth: '1' })
  const want = JSON.parse(growtuck('garment', ...suitFlags, '--format', 'json'))
  const finished = page.getByRole('region', { name: 'Finished measurements' })
  const sums = await cells(finished.getByRole('table'))
  assert.deepEqual(sums.map(r => [r[0].replace(/^[A-Z] /, ''), r[1], r.at(-1)]),
    want.parts.map((p, i) => [p.name, halves(p.body, sums[i]?.[1]), halves(p.finished, sums[i]?.at(-1))]), 'the same as growtuck garment')
  const drawing = page.locator('figure.picture svg')
  assert.match(await drawing.getAttribute('role'), /img/)
  const drawn = await drawing.locator('text').allTextContents()
  for (const part of ['chest', 'sleeve_length', 'inside_leg', 'hood_round', 'hood_height']) {
    const i = want.parts.findIndex(x => x.part === part)
    assert.ok(i >= 0 && drawn.some(x => x.replace(/^[A-Z] /, '') === String(Number(sums[i].at(-1)))), `${part} is on the drawing: ${drawn}`)
  }

  // A number says where it comes from.
  await finished.getByRole('row', { name: 'chest, all round' }).getByRole('button').last().click()
  const words = page.locator('#why-part-chest')
  await words.waitFor({ state: 'visible' })
  assert.match(await words.innerText(), /winter clothes.*\[common-practice\]/s)
  await page.keyboard.press('Escape')
  await words.waitFor({ state: 'hidden' })

  await page.getByLabel('Stitches', { exact: true }).fill('16')
  await page.getByLabel('Rows', { exact: true }).fill('18')
  await settled(page, { stitches: '16', rows: '18' })
  const plan = JSON.parse(growtuck('plan', ...suitFlags, '--craft', 'crochet', '--gauge', '16x18/10cm', '--format', 'json'))
  await page.getByRole('button', { name: 'Open all' }).click()
  assert.deepEqual((await cells(page.getByRole('region', { name: 'Finished sizes' }).getByRole('table'))).map(r => [r[0].replace(/^[A-Z] /, ''), r.at(-1)]).filter(r => plan.parts.some(p => p.name === r[0])),
    plan.parts.map(p => [p.name, p.count ? `${p.count} ${p.count_unit}` : '–']), 'the same as growtuck plan')
  assert.deepEqual(await page.locator('#r-plan ol.work').evaluateAll(all => all.map(ol => [...ol.querySelectorAll('.done span')].map(x => x.textContent))),
    [...plan.sections.map(x => x.steps.map(y => y.text)), plan.growth], 'its steps, and how the room to grow is held')

  assert.ok(plan.findings.length > 0)
  assert.deepEqual(await findings(page), listed(plan.findings), 'the findings of growtuck plan')
  await page.getByRole('heading', { name: 'For the care of the child' }).waitFor()
  assert.equal(await page.locator('[aria-invalid]').count(), 0)

  // A change of one entry shows at once, and nothing else changes.
  const before = (await cells(finished.getByRole('table'))).find(r => r[0].includes('inside leg'))
  await page.getByRole('textbox', { name: 'Inside leg' }).fill('36')
  await settled(page, { inside_leg: '36' })
  const now = (await cells(finished.getByRole('table'))).find(r => r[0].includes('inside leg'))
  assert.equal(Number(now.at(-1)) - Number(before.at(-1)), 1)
  assert.match(await page.getByRole('status').innerText(), /^(|.*chest, all round.*stitches\.)$/)
  await page.waitForFunction(() => /chest, all round .* stitches/.test(document.getElementById('said').textContent))
})

test('a wrong entry stays, with what is wrong beside it', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit())
  const wrong = [
    [page.getByRole('textbox', { name: 'Height' }).first(), 'tall', /"tall" is not a measurement/, '89.5'],
    [page.getByLabel('Age'), 'young', /young/, '22m'],
    [page.getByLabel('Lengths from size'), '20', /20/, '3'],
    [page.getByLabel('Rows', { exact: true }), 'many', /want rows/, '18'],
    [page.getByLabel('Stitches', { exact: true }), '-3', /want stitches/, '16']
  ]
  for (const [field, entry, words, right] of wrong) {
    await field.fill(entry)
    await field.blur()
    await page.waitForFunction(id => document.getElementById(id).getAttribute('aria-invalid') === 'true', await field.getAttribute('id'))
    const said = page.locator('#' + (await field.getAttribute('aria-describedby')).split(' ')[0])
    assert.match(await said.innerText(), words)
    const [box, near] = [await field.boundingBox(), await said.boundingBox()]
    assert.ok(near.y >= box.y && near.y - (box.y + box.height) < 60 && Math.abs(near.x - box.x) < 60, 'beside the field')
    assert.equal(await field.inputValue(), entry)
    assert.equal(await page.locator('[aria-invalid]').count(), 1)
    assert.ok([...new URLSearchParams(await typed(page)).values()].includes(entry), 'and is kept')
    await field.fill(right)
    await page.waitForFunction(() => !document.querySelector('[aria-invalid]'))
    assert.equal(await page.locator('.fault').evaluateAll(all => all.map(x => x.textContent).join('')), '')
  }
  await page.getByLabel('Rows', { exact: true }).fill('')
  await page.getByText('count the rows too').waitFor()
})

test('what is being typed is not disturbed', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit())
  const field = page.getByLabel('Stitches', { exact: true })
  await field.focus()
  await page.keyboard.press('End')
  await page.keyboard.type('.5', { delay: 40 })
  await page.keyboard.press('ArrowLeft')
  await settled(page, { stitches: '16.5' })
  assert.equal(await field.inputValue(), '16.5')
  assert.equal(await field.evaluate(x => x === document.activeElement && x.selectionStart), 3, 'focus and caret stay')
  // Slow answers to earlier entries do not overwrite a later one.
  let first = true
  await page.route('**/?*', async route => {
    if (first) {
      first = false
      await new Promise(resolve => setTimeout(resolve, 700))
    }
    await route.continue().catch(() => {}) // given up by the page
  })
  await field.fill('12')
  await page.waitForTimeout(250)
  await field.fill('20')
  await settled(page, { stitches: '20' })
  await page.waitForTimeout(800)
  await page.getByText('20 stitches and 18 rows to 10 cm, in the washed swatch.').waitFor({ state: 'attached' })
  assert.equal(new URLSearchParams(await typed(page)).get('stitches'), '20')
  await page.unroute('**/?*')
})

test('a tape in inches', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit())
  await page.getByLabel('My tape reads').selectOption({ label: 'inches and pounds' })
  await settled(page, { tape: 'in' })
  assert.equal(await page.getByRole('textbox', { name: 'Height' }).first().inputValue(), '89.5 cm', 'what was measured stays what it was')
  const want = JSON.parse(growtuck('garment', ...suitFlags, '--format', 'json'))
  const shown = await cells(page.getByRole('region', { name: 'Finished measurements' }).getByRole('table'))
  const quarters = x => `${Math.trunc(x) || ''} ${['', '1/4', '1/2', '3/4'][(x % 1) * 4]}`.trim()
  const either = p => [p.finished_in - 0.005, p.finished_in, p.finished_in + 0.005].map(x => quarters(Math.round(x * 4) / 4))
  for (const [i, p] of want.parts.entries()) assert.ok(either(p).includes(shown[i].at(-1)), `${p.name}: ${shown[i].at(-1)} in for ${p.finished_in}`)
  await page.getByRole('textbox', { name: 'Inside leg' }).fill('13 3/4')
  await settled(page, { inside_leg: '13 3/4' })
  assert.equal(await page.locator('[aria-invalid]').count(), 0)
})

// walk presses Tab until the element with this label has the focus.
async function walk (page, label) {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press('Tab')
    const here = await page.evaluate(() => {
      const x = document.activeElement
      const style = getComputedStyle(x)
      const name = (x.getAttribute('aria-label') ?? x.labels?.[0]?.textContent.trim() ?? x.textContent.trim()).replace(/^\d+(?=[A-Z])/, '') // the number of its tape
      return { name, ring: x === document.body || (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2), shown: x.getClientRects().length > 0 }
    })
    assert.ok(here.ring, `the focus on ${here.name} can be seen`)
    if (here.name === label) return
  }
  assert.fail(`no way to ${label} by Tab`)
}

test('by keyboard alone', async t => {
  const page = await tab(t, own)
  await page.goto('/')
  await page.keyboard.press('Tab')
  assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Skip to the content')
  await page.keyboard.press('Enter')
  await walk(page, 'The child is')
  await page.keyboard.type('boy')
  await walk(page, 'Age')
  await page.keyboard.type('22m')
  await walk(page, 'Height cm')
  await page.keyboard.type('89.5')
  await walk(page, 'Arm length, shoulder to wrist cm')
  await page.keyboard.type('28.5')
  await walk(page, 'Inside leg cm')
  await page.keyboard.type('35')
  await walk(page, 'Or start from a size')
  await page.keyboard.press('Enter')
  await walk(page, 'Widths from size')
  await page.keyboard.type('2')
  await walk(page, 'Lengths from size')
  await page.keyboard.type('3')
  await settled(page, { lengths: '3' }) // with figures shown, there is more to walk over
  assert.equal(await page.evaluate(() => document.activeElement.id), 'lengths', 'the focus stays after a live update')
  await walk(page, 'Garment')
  await page.keyboard.type('One-piece suit with a hood')
  await settled(page, { garment: 'one-piece-hooded' })
  assert.equal(await page.evaluate(() => document.activeElement.id), 'garment')
  await walk(page, 'Worn over')
  await page.keyboard.type('winter')
  await walk(page, 'Room to grow for')
  await page.keyboard.type('half')
  await settled(page, { layer: 'winter', growth: '1' })
  await walk(page, 'Stitches')
  await page.keyboard.type('16')
  await page.keyboard.press('Tab')
  await page.keyboard.type('18')
  await page.keyboard.press('Enter')
  await settled(page, { rows: '18' })
  assert.equal(await page.evaluate(() => document.activeElement.id), 'rows')
  const kept = new URLSearchParams(await typed(page))
  for (const [k, v] of suit) assert.equal(kept.get(k), v, k)
  await page.getByText(/^Ch [0-9]+ for the neck/).waitFor({ state: 'attached' })
  // A tick is in the address, and a link within the page leaves it there.
  const box = page.locator('.pattern .done input').first()
  await page.waitForLoadState('networkidle')
  await page.getByRole('button', { name: 'Open all' }).focus()
  await page.keyboard.press('Enter')
  await box.focus()
  await page.keyboard.press('Space')
  await page.waitForFunction(() => location.hash.startsWith('#done='))
  await page.reload()
  assert.ok(await box.isChecked(), 'a tick is kept')
  await page.locator('#rows').focus()
  // A table is one stop, where the arrow keys go from number to number; each says what it
  // is of. A number is opened and closed by its key, and gives the focus back.
  await walk(page, 'Finished sizes')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Tab')
  const here = () => page.evaluate(() => document.activeElement.getAttribute('aria-label'))
  assert.match(await here(), /^chest, all round, count: \d+ stitches$/)
  await page.keyboard.press('Enter')
  await page.locator('#why-count-chest').waitFor({ state: 'visible' })
  await page.keyboard.press('Escape')
  await page.locator('#why-count-chest').waitFor({ state: 'hidden' })
  assert.match(await here(), /^chest, all round, count: \d+ stitches$/)
  await page.keyboard.press('ArrowDown')
  assert.match(await here(), /^neck edge, at rest, count: \d+ stitches$/)
  await page.keyboard.press('Control+End')
  assert.match(await here(), /^hood, neck to crown, count: \d+ rows$/)
  await page.keyboard.press('Tab')
  assert.equal(await page.evaluate(() => document.activeElement.textContent.trim()), 'Materials', 'one stop a table')
  await page.keyboard.press('Shift+Tab')
  assert.match(await here(), /^hood/, 'and back to where it was')
  await page.getByRole('link', { name: 'Take along' }).focus()
  await page.keyboard.press('Enter')
  assert.ok(await box.isChecked())
  await walk(page, 'The plan as a workbook (xlsx)')
  const coming = page.waitForEvent('download')
  await page.keyboard.press('Enter')
  assert.match((await coming).suggestedFilename(), /\.xlsx$/)
})

test('what is taken along passes growtuck check', async t => {
  const page = await tab(t, own)
  await page.goto(inSuit())
  const want = JSON.parse(growtuck('plan', ...suitFlags, '--craft', 'crochet', '--gauge', '16x18/10cm', '--format', 'json'))
  const rules = want.findings.map(f => f.rule).filter(r => r !== 'D04')
  for (const [name, kind] of [[/as a workbook/, '.xlsx'], [/as a draft/, '.csv']]) {
    const coming = page.waitForEvent('download')
    await page.getByRole('link', { name }).click()
    const download = await coming
    assert.equal(await download.failure(), null)
    assert.ok(download.suggestedFilename().endsWith(kind))
    const file = `${await download.path()}${kind}`
    await download.saveAs(file)
    const { code, text } = status('check', file)
    assert.equal(code, 0, text)
    for (const rule of rules) assert.ok(text.includes(rule), `${rule} in\n${text}`)
  }
  const coming = page.waitForEvent('download')
  await page.getByRole('link', { name: /drawing/ }).click()
  assert.match(await readFile(await (await coming).path(), 'utf8'), /^(<\?xml.*?\?>\s*)?<svg /)
})

test('without scripts', async t => {
  const page = await tab(t, own, { javaScriptEnabled: false })
  await page.goto('/')
  await page.getByLabel('The child is').selectOption({ label: 'boy' })
  await page.getByLabel('Age').fill('22m')
  await page.getByRole('textbox', { name: 'Height' }).first().fill('89.5')
  await page.getByRole('textbox', { name: 'Arm length, shoulder to wrist' }).fill('28.5')
  await page.getByRole('textbox', { name: 'Inside leg' }).fill('35')
  await page.getByText('Or start from a size').click()
  await page.getByLabel('Widths from size').fill('2')
  await page.getByRole('button', { name: 'Show' }).first().click()
  assert.equal(await page.getByLabel('Lengths from size').getAttribute('aria-invalid'), 'true')
  await page.getByText('widths without lengths; give both sizes').waitFor()
  await page.getByLabel('Lengths from size').fill('3')
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'One-piece suit with a hood' })
  await page.getByLabel('Worn over', { exact: true }).selectOption({ label: 'winter clothes' })
  await page.getByLabel('Room to grow for').selectOption({ label: 'half a year' })
  await page.getByLabel('Stitches', { exact: true }).fill('16')
  await page.getByLabel('Rows', { exact: true }).fill('18')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { name: /^Back of the neck/ }).click()
  await page.getByText(/^Ch [0-9]+ for the neck/).waitFor()
  const scripted = await tab(t, own)
  await scripted.goto(inSuit())
  for (const one of [page, scripted]) await unfold(one)
  assert.equal(await page.locator('main').innerText().then(unspaced), await scripted.locator('main').innerText().then(unspaced), 'the same page as with scripts')
})

// Without scripts there are buttons to submit with.
const unspaced = text => text.split('\n').map(x => x.trim()).filter(x => x && !/^(Show|Open all Fold all)$/.test(x)).join('\n')
