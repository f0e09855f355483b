// A contributor: pastes and drops rows with faults, and reads the findings and
// the review sheet.
import assert from 'node:assert/strict'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { findings, follow, listed, serve, status, tab } from './browser.mjs'

const own = serve()

// Made up: a value out of line with its neighbours, a measurement that is not
// known, a value that is not a number.
const rows = `chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note
craft,4,both,chest,given,68,cm,craft-2018,made up for this test,published,one reader,
craft,4,both,hipp,given,60,cm,craft-2018,made up for this test,published,one reader,
craft,6,both,chest,given,sixty,cm,craft-2018,made up for this test,published,one reader,
`
const drafts = new URL('../../testdata/drafts/', import.meta.url)

async function told (t, command, text) {
  const dir = await mkdtemp(join(tmpdir(), 'growtuck-'))
  t.after(() => rm(dir, { recursive: true }))
  const file = join(dir, 'given.csv')
  await writeFile(file, text)
  return JSON.parse(status(command, file, '--format', 'json').text)
}

// drop drops a file on the form.
async function drop (page, name, text) {
  const data = await page.evaluateHandle(([name, text]) => {
    const d = new DataTransfer()
    d.items.add(new File([text], name, { type: 'text/csv' }))
    return d
  }, [name, text])
  const form = page.locator('form#give')
  await form.dispatchEvent('dragenter', { dataTransfer: data })
  await form.dispatchEvent('dragover', { dataTransfer: data })
  const next = page.waitForNavigation()
  await form.dispatchEvent('drop', { dataTransfer: data })
  await next
}

test('rows that are pasted', async t => {
  const page = await tab(t, own, { permissions: ['clipboard-read', 'clipboard-write'] })
  await page.goto('/')
  await follow(page, 'Check rows and drafts')
  await page.evaluate(text => navigator.clipboard.writeText(text), rows)
  await page.getByLabel('Rows, with their header line').focus()
  await page.keyboard.press('Control+V')
  assert.equal(await page.getByLabel('Rows, with their header line').inputValue(), rows)
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.getByRole('heading', { name: 'Findings' }).waitFor()
  const want = await told(t, 'rows', rows)
  assert.ok(want.some(f => f.severity === 'stop'))
  assert.deepEqual(await findings(page), listed(want), 'the findings of growtuck rows')
  assert.equal(await page.evaluate(() => document.activeElement.id), 'h-findings', 'the findings have the focus')
  assert.equal(await page.getByLabel('Rows, with their header line').inputValue(), rows, 'what was pasted is kept')
  assert.equal(new URL(page.url()).search, '', 'and does not go into the address')
})

test('the review sheet', async t => {
  const page = await tab(t, own)
  await page.goto('/rows')
  await page.getByRole('button', { name: 'Fill in an example with faults' }).click()
  const text = await page.getByLabel('Rows, with their header line').inputValue()
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.getByRole('heading', { name: 'Review sheet' }).waitFor()
  assert.deepEqual(await findings(page), listed(await told(t, 'rows', text)))
  const values = page.getByRole('region', { name: 'New and changed values' }).getByRole('row').nth(1)
  assert.match(await values.innerText(), /craft\s+4\s+both\s+chest\s+68 cm\s+58\.5/)
  assert.ok(await page.getByRole('region', { name: 'Readings that would move' }).getByRole('row').count() > 5)
  await page.getByText('The sheet as text').click()
  assert.match(await page.locator('pre').innerText(), /^# Review of pasted/)
})

test('rows and a draft that are dropped', async t => {
  const page = await tab(t, own)
  await page.goto('/rows')
  await drop(page, 'proposed.csv', rows)
  assert.deepEqual(await findings(page), listed(await told(t, 'rows', rows)))
  const draft = await readFile(new URL('cardigan-slips.csv', drafts), 'utf8')
  await drop(page, 'cardigan.csv', draft)
  await page.getByRole('heading', { name: 'Findings about the draft' }).waitFor()
  const want = await told(t, 'check', draft)
  assert.ok(want.length > 3)
  assert.deepEqual(await findings(page), listed(want), 'the findings of growtuck check')
})

test('a file that is chosen, without scripts', async t => {
  const page = await tab(t, own, { javaScriptEnabled: false })
  await page.goto('/rows')
  await page.getByLabel('Or a file').setInputFiles({ name: 'proposed.csv', mimeType: 'text/csv', buffer: Buffer.from(rows) })
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.getByRole('heading', { name: 'Findings' }).waitFor()
  assert.deepEqual(await findings(page), listed(await told(t, 'rows', rows)))
})

test('nothing given, and what is no table', async t => {
  const page = await tab(t, own)
  const field = page.getByLabel('Rows, with their header line')
  await page.goto('/rows')
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.waitForFunction(() => document.getElementById('rows').getAttribute('aria-invalid') === 'true')
  assert.match(await page.locator('#rows-fault').innerText(), /^Nothing was given/)
  await field.fill('<script>alert("hello")</script>,"')
  await page.getByRole('button', { name: 'Check', exact: true }).click()
  await page.locator('.finding.stop').waitFor()
  assert.equal(await field.inputValue(), '<script>alert("hello")</script>,"')
})
