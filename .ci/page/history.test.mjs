// What was typed is kept with the tab, and not in what the browser writes down of where it
// has been: its history and its downloads.
import assert from 'node:assert/strict'
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { chromium } from 'playwright-core'
import { folder, follow, launch, serve, settled, typed } from './browser.mjs'

const own = serve()
const skip = folder && 'a site is driven in tabs without a profile of their own'

// writtenDown is what the profile of a browser that was closed says of addresses.
async function writtenDown (profile) {
  const names = (await readdir(join(profile, 'Default'))).filter(name => /^(History|Visited Links|Top Sites|Shortcuts|DownloadMetadata|Favicons)/.test(name))
  assert.ok(names.includes('History'), names.join())
  return (await Promise.all(names.map(name => readFile(join(profile, 'Default', name), 'latin1')))).join('\n')
}

test('measurements are not in the history of the browser', { skip }, async t => {
  const profile = await mkdtemp(join(tmpdir(), 'growtuck-'))
  t.after(() => rm(profile, { recursive: true }))
  const context = await chromium.launchPersistentContext(profile, { ...launch, acceptDownloads: true })
  const page = await context.newPage()
  await page.goto(own.origin + '/')
  await page.getByRole('combobox', { name: 'The child is' }).selectOption('f')
  for (const [name, entry] of [['height', '139.25'], ['chest', '61.75'], ['stitches', '20'], ['rows', '28']]) await page.locator(`[name=${name}]`).fill(entry)
  await page.getByLabel('Garment', { exact: true }).selectOption('cardigan')
  await page.getByLabel('Craft').selectOption('knit')
  await settled(page, { height: '139.25', chest: '61.75', garment: 'cardigan', stitches: '20', rows: '28', craft: 'knit' })
  await page.locator('.pattern .work li').first().waitFor({ state: 'attached' })
  assert.equal(new URL(page.url()).search, '')
  // A file, to the other views and back, forth, loaded again, a list posted: all are there.
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator('#take a[download]').first().click()])
  assert.match(file.suggestedFilename(), /^cardigan.*\.[a-z]+$/)
  assert.ok((await readFile(await file.path())).length > 1000)
  await follow(page, 'Sizes side by side')
  await page.getByRole('heading', { level: 1, name: 'Sizes side by side' }).waitFor()
  await follow(page, 'Several children')
  await page.getByRole('heading', { level: 1, name: 'Several children' }).waitFor()
  await page.getByLabel('The children, a line each').fill('name,sex,age,height\nOtto,m,2,88.75\n')
  await page.getByRole('button', { name: 'Work it out' }).click()
  await page.getByRole('region', { name: 'Who can wear it next' }).getByRole('table').waitFor()
  await follow(page, 'A garment for a child')
  const height = page.locator('[name=height]').first()
  const there = async () => {
    await page.waitForFunction(() => document.querySelector('[name=height]')?.value === '139.25')
    assert.equal(new URLSearchParams(await typed(page)).get('chest'), '61.75')
    assert.equal(new URL(page.url()).search, '')
  }
  await there()
  await page.reload()
  await there()
  await height.fill('140.75')
  await settled(page, { height: '140.75' })
  await follow(page, 'Sizes side by side')
  await page.getByRole('heading', { level: 1, name: 'Sizes side by side' }).waitFor()
  await page.goBack()
  await page.waitForFunction(() => document.querySelector('[name=height]')?.value === '140.75')
  await context.close()
  const written = await writtenDown(profile)
  assert.ok(written.includes(new URL(own.origin).host), 'the page itself is in the history')
  for (const entry of ['139.25', '61.75', '140.75', '88.75']) assert.ok(!written.includes(entry), entry)
})

test('the address with all that was typed is there for who asks', { skip }, async t => {
  const profile = await mkdtemp(join(tmpdir(), 'growtuck-'))
  t.after(() => rm(profile, { recursive: true }))
  const context = await chromium.launchPersistentContext(profile, launch)
  const page = await context.newPage()
  await page.goto(own.origin + '/')
  await page.locator('[name=height]').first().fill('139.25')
  await settled(page, { height: '139.25' })
  await page.locator('footer a.keep').click()
  await page.waitForURL(/height=139\.25/)
  assert.equal(await page.locator('[name=height]').first().inputValue(), '139.25')
  await context.close()
  assert.ok((await writtenDown(profile)).includes('139.25'), 'and the history then has it, as this test can see')
})
