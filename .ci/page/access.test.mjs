// Open to everybody: axe finds nothing on any view, light, dark, on a phone, with
// errors and with findings shown.
import assert from 'node:assert/strict'
import { test } from 'node:test'
import axe from 'axe-core'
import { serve, tab } from './browser.mjs'
import { each, open, views } from './views.mjs'

const own = serve()

// faults runs axe in the page and says what it found.
async function faults (page) {
  const found = await page.evaluate(() => axe.run(document, { resultTypes: ['violations'] }))
  return found.violations.flatMap(v => v.nodes.slice(0, 3).map(n => `${v.id}: ${n.target} ${n.failureSummary.split('\n').slice(1).join(';')}`))
}

test('axe finds nothing: light, dark, on a phone', async t => {
  const page = await tab(t, own)
  const all = {}
  await each(page, async name => {
    await open(page)
    await page.evaluate(axe.source)
    for (const [mode, colorScheme, width] of [['light', 'light', 1280], ['dark', 'dark', 1280], ['on a phone', 'light', 360]]) {
      await page.emulateMedia({ colorScheme })
      await page.setViewportSize({ width, height: 900 })
      const found = await faults(page)
      if (found.length) all[`${name}, ${mode}`] = found
    }
  })
  assert.deepEqual(all, {})
})

test('axe finds nothing in what a number says', async t => {
  const page = await tab(t, own)
  await page.goto(views.suit)
  await page.getByRole('region', { name: 'Finished measurements' }).getByRole('row', { name: 'chest, all round' }).getByRole('button').last().click()
  await page.locator('[popover]:popover-open').waitFor()
  await page.evaluate(axe.source)
  assert.deepEqual(await faults(page), [])
})
