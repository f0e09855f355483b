// Puts growtuck page under load and prints figures. Run by hand, from .ci/page:
// GROWTUCK=../../growtuck node load.mjs. It fails on an answer of 500 or more.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFile } from 'node:fs/promises'
import { Agent, request } from 'node:http'
import { connect } from 'node:net'

const suit = 'sex=m&age=22m&height=89.5&arm_length=28.5&inside_leg=35&chest=50.5&garment=one-piece-hooded&layer=winter&growth=1&stitches=16&rows=18'
const rows = 'chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,68,cm,craft-2018,made up,published,one reader,\n'

async function start () {
  const server = spawn(process.env.GROWTUCK, ['page', '--listen', '127.0.0.1:0'], { stdio: ['ignore', 'pipe', 'pipe'] })
  let complaints = ''
  server.stderr.on('data', d => { complaints += d })
  const [line] = await once(server.stdout, 'data')
  return { server, pid: server.pid, port: Number(String(line).match(/:(\d+)\//)[1]), complaints: () => complaints }
}

// goroutines ends a program with the dump of its goroutines and counts them.
async function goroutines (s) {
  s.server.kill('SIGQUIT')
  await once(s.server, 'close')
  return s.complaints().match(/^goroutine \d+ /gm).length
}

const resident = async pid => Number((await readFile(`/proc/${pid}/status`, 'utf8')).match(/VmRSS:\s+(\d+)/)[1]) / 1024

// random is a generator of numbers that are the same in each run.
let seed = 1
const random = n => { seed = (seed * 1103515245 + 12345) % 2147483648; return Math.floor(seed / 65536) % n }
const pick = list => list[random(list.length)]

const agent = new Agent({ keepAlive: true, maxSockets: 64 })
const answers = {}
let worst = []

// ask sends a request and gives its milliseconds.
function ask (s, path, { method = 'GET', headers = {}, body } = {}) {
  const from = performance.now()
  return new Promise(resolve => {
    const r = request({ agent, host: '127.0.0.1', port: s.port, path, method, headers }, a => {
      a.resume()
      a.on('close', () => done(a.statusCode))
    })
    const done = status => {
      answers[status] = (answers[status] ?? 0) + 1
      if (status >= 500) worst.push(`${status} ${method} ${path.slice(0, 200)}`)
      resolve(performance.now() - from)
    }
    r.on('error', e => done(e.code ?? 'error'))
    r.end(body)
  })
}

// together runs n jobs, some of them at once, and gives their milliseconds in order.
async function together (n, atOnce, job) {
  const took = []
  let next = 0
  await Promise.all(Array.from({ length: atOnce }, async () => {
    while (next < n) took.push(await job(next++))
  }))
  return took.sort((a, b) => a - b)
}

const at = (took, share) => took[Math.min(took.length - 1, Math.floor(took.length * share))].toFixed(1)
const told = (what, took) => console.log(`${what}: ${took.length} requests, median ${at(took, 0.5)} ms, p95 ${at(took, 0.95)} ms, slowest ${at(took, 1)} ms; answers ${JSON.stringify(answers)}`)
const clear = () => { for (const k of Object.keys(answers)) delete answers[k] }

const fresh = await start()
const few = await goroutines(fresh)
const s = await start()
const first = await resident(s.pid)

const edit = i => ask(s, `/?${suit}&hip=${50 + i % 100 / 10}&waist=${48 + i % 70 / 10}`)
await together(50, 1, edit)
clear()
told('edits of a suit, one after another', await together(400, 1, edit))
clear()
const sizes = i => ask(s, `/sizes?sizes=2,3,4.5,104cm,6&garment=one-piece-hooded&stitches=16&rows=${18 + i % 9}`)
told('edits of sizes, one after another', await together(100, 1, sizes))
clear()
const warm = await resident(s.pid)

const mixed = i => [edit, sizes, edit, i => ask(s, `/files/draft.csv?${suit}`), i => ask(s, '/'), edit,
  i => ask(s, '/rows', { method: 'POST', headers: { 'content-type': 'application/x-www-form-urlencoded' }, body: new URLSearchParams({ rows }).toString() }), i => ask(s, `/files/plan.xlsx?${suit}`)][i % 8](i)
// A first round lets the heap grow to what 32 at once need.
await together(2000, 32, mixed)
clear()
const loaded = await resident(s.pid)
told('2,000 mixed at 32 at once, again', await together(2000, 32, mixed))
clear()
console.log(`memory: ${first.toFixed(0)} MB at the start, ${warm.toFixed(0)} after edits, ${loaded.toFixed(0)} after 2,000 at 32, ${(await resident(s.pid)).toFixed(0)} after 2,000 more`)

// Slow clients stay while others are served.
const slow = Array.from({ length: 100 }, (_, i) => {
  const c = connect(s.port, '127.0.0.1')
  c.on('error', () => {})
  c.write(i % 2 ? 'GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ' : 'POST /rows HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100000\r\n\r\nrows=')
  const more = setInterval(() => c.write('a'), 500)
  c.on('close', () => clearInterval(more))
  return c
})
await new Promise(resolve => setTimeout(resolve, 1000))
told('edits beside 100 slow clients', await together(200, 1, edit))
clear()

const big = Buffer.alloc(6 << 20, 'a,b,c\n')
const bodies = [
  ['/rows', 'application/x-www-form-urlencoded', big], ['/rows', 'multipart/form-data; boundary=x', big], ['/api/rows', 'text/csv', big], ['/api/check', 'text/csv', big],
  ['/rows', 'multipart/form-data', 'no boundary'], ['/rows', 'multipart/form-data; boundary=x', '--x\r\nContent-Disposition: form-data; name="rows"\r\n\r\nbroken'],
  ['/rows', 'application/json', '{}'], ['/rows', ';;;', 'x'], ['/rows', 'application/x-www-form-urlencoded', 'rows=%zz&%'], ['/api/rows', 'text/csv', Buffer.from([0, 255, 254, 34, 10, 34])],
  ['/api/check', 'text/csv', 'field,part,value,unit,note\n"'], ['/api/rows', 'text/csv', ''], ['/api/check', 'text/csv', rows], ['/api/rows', 'text/csv', 'PK\x03\x04junk']]
told('oversized and malformed bodies', await together(420, 8, i => {
  const [path, type, body] = bodies[i % bodies.length]
  return ask(s, path, { method: 'POST', headers: { 'content-type': type, 'content-length': Buffer.byteLength(body) }, body })
}))
clear()

const names = ['height', 'chest', 'waist', 'weight', 'head', 'inside_leg', 'size', 'widths', 'lengths', 'age', 'sex', 'garment', 'fit', 'layer', 'growth', 'option', 'stitches', 'rows', 'over', 'yoke', 'multiple', 'stretch', 'hood', 'closure', 'turned', 'yarn', 'swatch', 'tape', 'extra.chest', 'extra.hood_round', 'sizes', 'chart', 'curve', 'all', 'set', 'gauge', 'craft', 'nope', 'rib-stitches', 'rib-rows', 'before-rows']
const values = ['', '0', '1', '-1', '3', '5.5', '18m', '104cm', '1e308', '-1e308', 'NaN', 'Inf', '0x10', '9 3/4', '20¾ in', '99999999', 'x'.repeat(500), '%00', '"><script>', 'one-piece-hooded', 'cardigan', 'mittens', 'winter', 'classic', 'm', 'f', 'both', '4in', '10cm', 'raglan', '6n+2', 'neck=1.4', '50g 125m', '10x10cm 4g', 'in', 'yes', 'height=110cm', '16x18/10cm', 'knit', 'measured', '2, 3, 4,,5;6', '110', '53', '50', '16', '18', '\u202e', '💡', '1/0']
const paths = ['/', '/sizes', '/rows', '/files/plan.xlsx', '/files/draft.csv', '/files/drawing.svg', '/files/body.csv', '/files/none', '/api/size', '/api/plan', '/api/garment', '/api/blend', '/api/profile', '/api/draw', '/api/openapi.json', '/static/page.css', '/static/../page.go', '/none']
const before = await resident(s.pid)
told('random queries', await together(8000, 16, () => {
  const query = Array.from({ length: random(14) }, () => `${encodeURIComponent(pick(names))}${pick(['=', '=', '=', '=', '', '%', '=%', '&&', ';'])}${random(8) ? encodeURIComponent(pick(values)) : pick(values).replace(/[^!-~]/g, '%zz')}`).join('&')
  return ask(s, pick(paths) + '?' + query)
}))
clear()
console.log(`memory: ${before.toFixed(0)} MB before, ${(await resident(s.pid)).toFixed(0)} after; slow clients cut off: ${slow.filter(c => c.destroyed).length} of ${slow.length}`)
agent.destroy()
for (const c of slow) c.destroy()
await new Promise(resolve => setTimeout(resolve, 1500))
const complaints = s.complaints()
console.log(`goroutines: ${few} at the start, ${await goroutines(s)} at the end; complaints: ${JSON.stringify(complaints)}`)
for (const w of worst.slice(0, 20)) console.log(w)
if (worst.length || complaints) process.exitCode = 1
