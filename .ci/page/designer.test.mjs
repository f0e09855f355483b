// A designer: the charts between sizes, a garment graded over them, growth
// curves.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cells, follow, growtuck, halves, serve, settled, tab } from './browser.mjs'

const own = serve()
const tenths = (kg, shown) => [kg, kg - 0.005, kg + 0.005].map(x => x.toFixed(1)).find((x, _, all) => x === shown || !all.includes(shown))

test('sizes side by side, a graded table, growth curves', async t => {
  const page = await tab(t, own)
  await page.goto('/')
  await follow(page, 'Sizes side by side')
  await page.getByLabel('Sizes', { exact: true }).fill('2, 3, 4.5, 104cm, 6')
  await settled(page, { sizes: '2, 3, 4.5, 104cm, 6' })
  const table = page.getByRole('region', { name: 'Body measurements by size' }).getByRole('table')
  const chart = JSON.parse(growtuck('size', '2', '3', '4.5', '104cm', '6', '--format', 'json'))
  const rows = await cells(table)
  assert.ok(rows.length > 20)
  for (const [name, ...shown] of rows) {
    const want = chart.sizes.map(s => s.measurements.find(m => m.name === name.replace(' (kg)', ''))).map((m, i) => m ? (m.unit === 'kg' ? tenths(m.value, shown[i]) : halves(m.value, shown[i])) : '–')
    assert.deepEqual(shown, want, `${name}, the same as growtuck size`)
  }
  assert.equal(await table.getByRole('columnheader').count(), 6)
  await page.getByLabel('Show also what garments seldom need').check()
  await settled(page, { all: 'yes' })
  assert.ok((await cells(table)).length > rows.length)

  // Between sizes, linear interpolation is the other method.
  const chestGirth = async () => (await cells(table)).find(r => r[0] === 'chest girth')[3]
  const curved = JSON.parse(growtuck('size', '4.5', '--format', 'json')).sizes[0].measurements.find(m => m.measurement === 'chest').value
  const straight = JSON.parse(growtuck('size', '4.5', '--linear', '--format', 'json')).sizes[0].measurements.find(m => m.measurement === 'chest').value
  assert.equal(await chestGirth(), halves(curved))
  await page.getByLabel('Linear between sizes').check()
  await settled(page, { linear: 'yes' })
  assert.equal(await chestGirth(), halves(straight))
  await page.getByLabel('Linear between sizes').uncheck()
  await settled(page, { linear: '' })

  // Where a number comes from.
  await table.getByRole('row', { name: 'chest girth' }).getByRole('button').first().click()
  const words = page.locator('[popover]:popover-open')
  await words.waitFor()
  assert.match(await words.innerText(), /\[craft-2018\]/)
  await page.keyboard.press('Escape')

  // Graded.
  await page.getByLabel('Garment', { exact: true }).selectOption({ label: 'Cardigan' })
  await page.getByLabel('Craft').selectOption({ label: 'knit' })
  await page.getByLabel('Stitches', { exact: true }).fill('20')
  await page.getByLabel('Rows', { exact: true }).fill('28')
  await settled(page, { garment: 'cardigan', craft: 'knit', stitches: '20', rows: '28' })
  const graded = page.getByRole('region', { name: 'Finished measurements by size' }).getByRole('table')
  const shown = await cells(graded)
  const want = ['2', '3', '4.5', '104cm', '6'].map(size => JSON.parse(growtuck('garment', 'cardigan', '--size', size, '--format', 'json')).parts)
  assert.deepEqual(shown.map(r => r.slice(1, 6)), shown.map(r => want.map((parts, i) => halves(parts.find(p => p.name === r[0]).finished, r[i + 1]))), 'the same as growtuck garment')
  const chest = ['2', '3', '4.5', '104cm', '6'].map(size => JSON.parse(growtuck('plan', 'cardigan', '--size', size, '--craft', 'knit', '--gauge', '20x28/10cm', '--format', 'json')).parts[0].count)
  assert.equal(shown[0][6], `${chest[0]} (${chest.slice(1).join(', ')}) stitches`, 'the counts of growtuck plan, in brackets')
  await page.getByRole('button', { name: 'Open all' }).click()
  await page.locator('#r-graded ol.work li').first().waitFor()

  // Growth curves.
  const growth = page.getByRole('img', { name: /^Growth along chart child: / })
  assert.deepEqual((await page.locator('#r-growth .key li').allTextContents()).map(x => x.trim()), ['chest girth', 'hip girth', 'arm length, shoulder to wrist', 'inside leg'])
  for (const d of await growth.locator('g.curve > path').evaluateAll(all => all.map(p => p.getTotalLength()))) assert.ok(d > 100)
  await page.getByText('Which measurements').click()
  await page.getByRole('checkbox', { name: 'Hip girth' }).uncheck()
  await page.waitForFunction(() => document.querySelectorAll('#r-growth g.curve').length === 3)
  await page.getByLabel('Chart', { exact: true }).selectOption('measured')
  await page.getByRole('img', { name: /^Growth along chart measured: / }).waitFor()


  await page.reload()
  assert.equal(await page.getByLabel('Chart', { exact: true }).inputValue(), 'measured')
  assert.equal(await page.getByRole('checkbox', { name: 'Hip girth', includeHidden: true }).isChecked(), false)
})

test('growth curves follow the run that most sizes are on', async t => {
  const page = await tab(t, own)
  await page.goto('/sizes?sizes=18m,3,5.5')
  await page.getByRole('img', { name: /inside leg from 34.0 to 78.5 cm/ }).waitFor()
  await page.goto('/sizes?sizes=3m,18m,3')
  assert.match(await page.locator('#r-growth').innerText(), /size, months/)
})

test('a wrong size stays, with what is wrong beside it', async t => {
  const page = await tab(t, own)
  await page.goto('/sizes')
  const field = page.getByLabel('Sizes', { exact: true })
  await field.fill('3, huge, 5')
  await page.waitForFunction(() => document.getElementById('sizes').getAttribute('aria-invalid') === 'true')
  assert.match(await page.locator('#sizes-fault').innerText(), /unknown size of chart child "huge".*18m/)
  assert.ok((await field.getAttribute('aria-describedby')).includes('sizes-fault'))
  assert.equal(await field.inputValue(), '3, huge, 5')
  assert.equal((await cells(page.getByRole('region', { name: 'Body measurements by size' }).getByRole('table')))[0].length, 3, 'the sizes that are known are shown')
  await field.fill('3, 5')
  await page.waitForFunction(() => !document.querySelector('[aria-invalid]'))
})

test('without scripts', async t => {
  const page = await tab(t, own, { javaScriptEnabled: false })
  await page.goto('/sizes')
  await page.getByLabel('Sizes', { exact: true }).fill('18m, 5.5')
  await page.getByRole('button', { name: 'Show' }).first().click()
  const heads = page.getByRole('region', { name: 'Body measurements by size' }).getByRole('columnheader')
  assert.deepEqual(await heads.allTextContents(), ['measurement', '18m', '5.5'])
})
