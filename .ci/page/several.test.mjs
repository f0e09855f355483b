// A list of children: what to make, how well it fits, and who can wear a garment next.
import assert from 'node:assert/strict'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { cells, follow, growtuck, serve, settled, tab } from './browser.mjs'
import { children } from './views.mjs'

const own = serve()
const cardigan = '?sex=f&age=9y3m&height=141&chest=61&garment=cardigan&growth=2'

test('how many of each size, the misfit, and who can wear it next', async t => {
  const dir = await mkdtemp(join(tmpdir(), 'list-'))
  t.after(() => rm(dir, { recursive: true }))
  const file = join(dir, 'children.csv')
  await writeFile(file, children.replace(/no one.*\n/, ''))
  const want = JSON.parse(growtuck('order', file, '--sizes', '2,6,8,10', '--format', 'json'))
  for (const javaScriptEnabled of [true, false]) {
    const page = await tab(t, own, { javaScriptEnabled })
    await page.goto('/' + cardigan)
    await page.getByRole('link', { name: 'Several children' }).first().click()
    await page.getByLabel('The children, a line each').fill(children)
    await page.getByLabel('Sizes to choose from').fill('2, 6, 8, 10')
    await page.getByRole('button', { name: 'Work it out' }).click()
    await page.getByRole('heading', { name: 'How well they fit' }).waitFor()
    assert.deepEqual((await cells(page.getByRole('region', { name: 'Sizes to make' }).getByRole('table'))).map(r => [r[0], Number(r[1])]), want.sizes.map(s => [s.size, s.children]), 'the same as growtuck order')
    await page.getByText('Line 6: ').waitFor()
    // A bar for each difference, with how many children; all of them are there.
    for (const fit of want.fits) {
      const bars = await page.getByRole('img', { name: new RegExp('^' + fit.name, 'i') }).locator('title').allTextContents()
      assert.equal(bars.reduce((n, b) => n + parseInt(b), 0), want.children, fit.name)
      const small = bars.filter(b => /too small/.test(b) && parseFloat(b.split(', ')[1]) > want.tolerance_cm).reduce((n, b) => n + parseInt(b), 0)
      assert.ok(Math.abs(small - fit.too_small.children) <= 1, `${fit.name}: ${bars}`)
    }
    const next = await cells(page.getByRole('region', { name: 'Who can wear it next' }).getByRole('table'))
    assert.deepEqual(next.map(r => r[0]).sort(), ['Ada', 'Bo', 'Ines', 'Otto'])
    const soon = next.map(r => r[1] === 'now' ? 0 : parseInt(r[1].match(/\d+/) ?? 1000))
    assert.deepEqual(soon, soon.toSorted((a, b) => a - b), 'who can soonest comes first')
    assert.ok(soon[next.findIndex(r => r[0] === 'Ines')] <= 3, 'Ines, whom it was made for, before long')
    assert.equal(new URL(page.url()).search.includes('Otto'), false, 'no child is in the address')
    // Back to the maker's view, as it was.
    await follow(page, 'A garment for a child')
    assert.equal(await page.getByRole('textbox', { name: 'Height' }).first().inputValue(), '141')
  }
})

test('a list that cannot be read says so', async t => {
  const page = await tab(t, own)
  await page.goto('/children')
  for (const [text, sizes, words] of [['', '', /Nothing was given/], ['name,colour\nInes,red\n', '', /./], [children, 'huge', /huge/], ['PK\u0003\u0004', '', /./]]) {
    await page.getByLabel('The children, a line each').fill(text)
    await page.getByLabel('Sizes to choose from').fill(sizes)
    const next = page.waitForNavigation()
    await page.getByRole('button', { name: 'Work it out' }).click()
    await next
    assert.match(await page.locator('.fault').first().innerText(), words)
    assert.equal(await page.locator('[aria-invalid]').count(), 1)
  }
  await page.getByRole('button', { name: 'Fill in an example' }).click()
  await page.getByLabel('Sizes to choose from').fill('')
  await page.getByRole('button', { name: 'Work it out' }).click()
  await page.getByRole('heading', { name: 'How well they fit' }).waitFor()
  await page.getByText('Fill in a garment for a child').waitFor()
})

test('what a child will measure, and until when the garment fits', async t => {
  const page = await tab(t, own)
  await page.goto('/?sex=m&age=27m&height=88&measured=2026-11-01&garment=trousers&growth=2&craft=knit&stitches=22&rows=30')
  const flags = ['--sex', 'm', '--age', '27m', '--set', 'height=88cm', '--measured', '2026-11-01']
  await page.getByText('How long it fits, and').click()
  // What is folded is fetched anew when it is opened.
  await page.getByText('How long it fits, and').click()
  await page.getByRole('textbox', { name: 'Height' }).first().fill('89')
  await settled(page, { height: '89' })
  const before = await page.locator('#r-later').textContent()
  await page.getByRole('textbox', { name: 'Height' }).first().fill('88')
  await settled(page, { height: '88' })
  assert.equal(await page.locator('#r-later').textContent(), before)
  await page.getByText('How long it fits, and').click()
  await page.getByRole('cell', { name: '88.0' }).first().waitFor()
  const want = JSON.parse(growtuck('grow', ...flags, '--format', 'json')).grown.filter(g => g.measurement === 'inside_leg' && g.months === 12)[0]
  const row = (await cells(page.getByRole('region', { name: 'As the child grows' }).getByRole('table'))).find(r => r[0] === 'inside leg')
  assert.ok(Math.abs(Number(row.at(-2)) - want.value) <= 0.5, `${row} ${want.value}`)
  const fits = JSON.parse(growtuck('wears', 'trousers', ...flags, '--growth', '2', '--format', 'json')).worn
  const shown = await cells(page.getByRole('region', { name: 'How long it fits' }).getByRole('table'))
  assert.deepEqual(shown.map(r => r[0]), fits.filter(w => w.part && !(w.open && w.from_months === 0)).map(w => w.name))
  // The tuck dates are in the picture and in words.
  assert.ok(await page.locator('.growth .curve rect').count() > 0)
  await page.getByText(/let fold 1 down when the inside leg passes .* cm: \w{3} 20\d\d \(/).waitFor()
})
