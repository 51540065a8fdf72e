"""Thousands of changed, swapped, cut and replayed blobs, seats and boot files: none opens, none crashes the opener.

The openers are called directly (no stretching in between), here and in the browser. Every attempt must end in NotOpened; a boot
file may still be readable after a change outside its signed text, but then it must say exactly what was signed.
"""

from __future__ import annotations

import random
from base64 import b64encode

import pytest
from publish_fixture import QUICK, seated_state, shell_modules

from generator.vault import cipher
from generator.vault.blob import Blob, audience_key, open_blob, seal
from generator.vault.boot import Boot, read_boot, write_boot
from generator.vault.manifest import Entry, Manifest, open_manifest, seal_manifest
from generator.vault.results import open_result, seal_result
from generator.vault.seats import Payload, dummy_seat, encode_payload, unwrap, wrap

KEY = audience_key(b"k" * 32)


def _blobs(chance: random.Random) -> list[Blob]:
    return [seal(KEY, chance.randbytes(chance.randrange(0, 900)) + b"text " * chance.randrange(0, 90)) for _ in range(20)]


def _changed(data: bytes, chance: random.Random) -> bytes:
    """One of: bits flipped, cut, lengthened, a stretch doubled, a stretch of zeros, two bytes exchanged."""
    at, kind = chance.randrange(len(data)), chance.randrange(6)
    if kind == 0:
        return data[:at] + bytes([data[at] ^ (1 << chance.randrange(8))]) + data[at + 1 :]
    if kind == 1:
        return data[:at]
    if kind == 2:
        return data + chance.randbytes(chance.randrange(1, 40))
    if kind == 3:
        return data[:at] + data[at // 2 :]
    if kind == 4:
        return data[:at] + bytes(min(9, len(data) - at)) + data[at + 9 :]
    other = chance.randrange(len(data))
    swapped = bytearray(data)
    swapped[at], swapped[other] = swapped[other], swapped[at]
    return bytes(swapped)


def _never_opens(attempt):
    with pytest.raises(cipher.NotOpened):
        attempt()


def test_changed_and_swapped_blobs_never_open():
    chance = random.Random(2026)
    blobs, tried = _blobs(chance), 0
    while tried < 4000:
        blob, other = chance.choice(blobs), chance.choice(blobs)
        data = _changed(blob.data, chance)
        if data != blob.data:
            _never_opens(lambda d=data, n=blob.name: open_blob(KEY, Blob(n, d)))
            tried += 1
        if other.name != blob.name:
            _never_opens(lambda a=blob, b=other: open_blob(KEY, Blob(a.name, b.data)))
            _never_opens(lambda a=blob: open_manifest(KEY, a))
            tried += 2
    for name in ("", "zz" * 16, "ab", "g" * 32, blobs[0].name[:-2]):
        _never_opens(lambda n=name: open_blob(KEY, Blob(n, blobs[0].data)))


def test_what_an_insider_seals_badly_never_crashes():
    """Right key, wrong inside: flags, lengths, broken gzip, gzip of gigabytes, manifests that are not."""
    chance = random.Random(7)
    bodies = [bytes([chance.randrange(256)]) + chance.randbytes(chance.randrange(0, 60)) for _ in range(600)]
    bodies += [b"", b"\1", b"\1\0\0\0\3abc", b"\0\xff\xff\xff\xffabc", b"\0\0\0\0\1ab"]
    texts = [b"[]", b"{}", b"null", b"1e999", b'{"v":1}', b"[" * 5000, b'{"v":1,"g":1,"files":{"a":[1]},"keys":{},"before":[],"kids":[],"types":[]}',
             b'{"v":1,"g":"x","files":{},"keys":{},"before":[]}', b'{"v":1,"g":1,"files":{"a":["b",9,9,9]},"keys":{"a":"!"},"before":[1],"kids":[],"types":[]}']
    for text in texts:
        _never_opens(lambda t=text: open_manifest(KEY, seal(KEY, t, manifest=True)))
    for body in bodies:
        name = cipher.mac(KEY.name, body)[:16]
        blob = Blob(name.hex(), bytes(12) + cipher.lock(KEY.lock, bytes(12), body, name))
        try:
            open_blob(KEY, blob)
        except cipher.NotOpened:
            continue
        size = int.from_bytes(body[1:5], "big")
        assert body[0] == 0 and body[5 + size :].strip(b"\0") == b""


def test_changed_boot_files_never_count():
    chance = random.Random(99)
    state, _, _ = seated_state()
    public, person = cipher.public_point(state.signer), state.people[0]
    payload = encode_payload(Payload(False, (("abcd", b"c" * 32),), public, "w", (1,), "01020304", b"r" * 32))
    seats = {person.seat: wrap(person.key, person.seat, payload, b"n" * 12)} | dict(dummy_seat(chance.randbytes) for _ in range(3))
    boots = [write_boot(Boot(n, state.salt, QUICK, {"abcd": "ab" * 16}, seats), state.signer) for n in (3, 4)]
    said = {read_boot(b).body for b in boots}
    counted = 0
    for _ in range(2500):
        data = _changed(chance.choice(boots), chance)
        try:
            signed = read_boot(data)
        except cipher.NotOpened:
            continue
        if signed.is_from(public):
            assert signed.body in said
        else:
            counted += 1
    assert counted > 100  # well-formed and yet refused: the signature did it
    other = write_boot(Boot(9, state.salt, QUICK, {"abcd": "ab" * 16}, seats), cipher.new_signer())
    assert not read_boot(other).is_from(public)
    for raw in (b"", b"[]", b"null", b"{}", b'{"v":1,"body":5,"sig":""}', b'{"v":1,"body":"[]","sig":""}', b"[" * 9000, b"\xff\xfe", b"{" * 2_000_000):
        _never_opens(lambda r=raw: read_boot(r))


def test_changed_seats_and_results_never_open():
    chance = random.Random(5)
    public = cipher.public_point(cipher.new_signer())
    payload = encode_payload(Payload(False, (("abcd", b"c" * 32),), public, "w", (1,), "01020304", b"r" * 32))
    entry = wrap(b"k" * 32, "ab" * 16, payload, b"n" * 12)
    line = seal_result("01020304", b"r" * 32, b"q1:3 and more", b"n" * 12)
    for _ in range(800):
        data = _changed(entry, chance)
        if data != entry:
            _never_opens(lambda d=data: unwrap(b"k" * 32, "ab" * 16, d))
        at = chance.randrange(len(line) - 1)  # the last letter holds unused bits
        bent = line[:at] + chance.choice("ABCxyz019-_ü!") + line[at + 1 :]
        if bent != line:
            _never_opens(lambda b=bent: open_result(b, {"01020304": b"r" * 32}))
    for raw in (b"", b"[]" * 192, b"null".ljust(384), b'{"v":1}'.ljust(384), b'{"v":1,"k":[["a","!"]]}'.ljust(384)):
        _never_opens(lambda r=raw: unwrap(b"k" * 32, "ab" * 16, wrap(b"k" * 32, "ab" * 16, r, b"m" * 12)))


IN_BROWSER = """async ([boots, contentKey, blobs, shelves, seat, entry, pub, salt, rounds]) => {
  const c = window.core;
  const bytes = (t) => c.fromBase64(t);
  let seed = 12345;
  const below = (n) => { seed = (Math.imul(seed, 1103515245) + 12345) >>> 0; return Math.floor((seed / 4294967296) * n); };
  const changed = (data) => {
    const at = below(data.length);
    const kind = below(4);
    if (kind === 1) return data.slice(0, at);
    const copy = new Uint8Array(data.length + (kind === 2 ? 7 : 0));
    copy.set(data);
    if (kind === 3 && data.length > 20) copy.set(data.subarray(at % 9, at % 9 + 8), Math.min(at, data.length - 8));
    else copy[kind === 2 ? copy.length - 1 : at] ^= 1 + below(255);
    return copy;
  };
  const same = (a, b) => a.length === b.length && a.every((x, i) => x === b[i]);
  const { keys } = await c.audienceKey(bytes(contentKey));
  const tally = { tried: 0, opened: 0, crashed: [] };
  const attempt = async (job) => {
    tally.tried += 1;
    try { await job(); tally.opened += 1; } catch (e) { if (!(e instanceof c.NotOpened)) tally.crashed.push(String(e && e.stack)); }
  };
  const made = blobs.map(([name, data]) => [name, bytes(data)]);
  for (let i = 0; i < 2600; i++) {
    const [name, data] = made[below(made.length)];
    const [other] = made[below(made.length)];
    const bent = changed(data);
    if (!same(bent, data)) await attempt(() => c.openBlob(keys, name, bent));
    if (other !== name) await attempt(() => c.openBlob(keys, other, data));
    if (i % 5 === 0) await attempt(() => c.openManifest(keys, name, data));
  }
  for (const [name, data] of shelves) await attempt(() => c.openBlob(keys, name, bytes(data)));
  const seatKey = await c.gcmKey(new Uint8Array(32).fill(107), ["decrypt"]);
  for (let i = 0; i < 500; i++) { const bent = changed(bytes(entry)); if (!same(bent, bytes(entry))) await attempt(() => c.openSeat(seatKey, seat, bent)); }
  const counted = { tried: 0, unsigned: 0, wrong: 0, crashed: [] };
  const said = new Set(boots.map((b) => c.readBoot(b).body));
  const letters = "0123456789abcdefABCDEF+/={}[],:\\"\\\\ ";
  for (let i = 0; i < 1500; i++) {
    const text = boots[below(boots.length)];
    const at = below(text.length);
    const bent = [text.slice(0, at) + letters[below(letters.length)] + text.slice(at + 1), text.slice(0, at), text.slice(0, at) + text.slice(at / 2)][below(3)];
    counted.tried += 1;
    try {
      const boot = c.readBoot(bent);
      if (!(await c.isSigned(boot, bytes(pub)))) counted.unsigned += 1;
      else if (!said.has(boot.body)) counted.wrong += 1;
    } catch (e) { if (!(e instanceof c.NotOpened)) counted.crashed.push(String(e && e.stack)); }
  }
  return { tally, counted };
}"""


@pytest.fixture(scope="module")
def modules(chromium, tmp_path_factory):
    with shell_modules(chromium, tmp_path_factory.mktemp("modules")) as page:
        yield page


@pytest.mark.browser
def test_the_browser_refuses_them_too(modules):
    text = lambda raw: b64encode(raw).decode()
    chance = random.Random(3)
    state, _, _ = seated_state()
    public = cipher.public_point(state.signer)
    payload = encode_payload(Payload(False, (("abcd", b"c" * 32),), public, "w", (1,), "01020304", b"r" * 32))
    entry = wrap(b"k" * 32, "ab" * 16, payload, b"n" * 12)
    boots = [write_boot(Boot(n, state.salt, QUICK, {"abcd": "ab" * 16}, {"ab" * 16: entry}), state.signer).decode() for n in (3, 4)]
    shelf = seal_manifest(KEY, Manifest(1, {"a": Entry("ab" * 16, KEY.id, "text/html", 1)}))
    bad = [seal(KEY, t, manifest=True) for t in (b"[]", b"null", b"{}", b"[" * 5000, b'{"v":1,"g":1,"files":{"a":[1]},"keys":{}}')]
    got = modules.evaluate(
        IN_BROWSER,
        [boots, text(b"k" * 32), [[b.name, text(b.data)] for b in _blobs(chance)], [[b.name, text(b.data)] for b in (shelf, *bad)],
         "ab" * 16, text(entry), text(public), text(state.salt), QUICK],
    )
    assert got["tally"]["crashed"] == [] and got["counted"]["crashed"] == []
    assert got["tally"]["opened"] == 0 and got["counted"]["wrong"] == 0
    assert got["tally"]["tried"] + got["counted"]["tried"] > 5000 and got["counted"]["unsigned"] > 50


@pytest.mark.browser
def test_the_browser_checks_that_a_name_is_the_bodys(modules):
    """Sealed with the right key under a name that a signed boot file reaches, yet another body."""
    real = seal(KEY, b"the coach's page")
    body = b"\0" + (12).to_bytes(4, "big") + b"another page".ljust(251, b"\0")
    forged = bytes(12) + cipher.lock(KEY.lock, bytes(12), body, bytes.fromhex(real.name))
    told = modules.evaluate(
        """async ([contentKey, name, good, forged]) => {
          const { keys } = await window.core.audienceKey(window.core.fromBase64(contentKey));
          const open = (data) => window.core.openBlob(keys, name, window.core.fromBase64(data)).then((t) => new TextDecoder().decode(t), (e) => e.message);
          return [await open(good), await open(forged)];
        }""", [b64encode(b"k" * 32).decode(), real.name, b64encode(real.data).decode(), b64encode(forged).decode()])
    assert told == ["the coach's page", "the name is another body's"]


@pytest.mark.browser
def test_only_a_newer_boot_of_our_own_moves_a_reader(modules):
    """Replayed, forged and foreign boot files leave the session as it is; a missing seat shuts it and drops nothing else."""
    state, _, _ = seated_state()
    key, person = audience_key(b"k" * 32), state.people[0]
    heads, blobs = {}, {}
    for n, size in ((4, 1), (5, 2), (6, 3)):
        shelf = seal_manifest(key, Manifest(n, {"a.html": Entry(f"{size:032x}", key.id, "text/html", 1)}))
        heads[n], blobs[shelf.name] = shelf.name, b64encode(shelf.data).decode()

    def boot(n, signer=state.signer, seat=person.seat, head=None):
        payload = encode_payload(Payload(False, (("abcd", b"k" * 32),), cipher.public_point(state.signer), "w", (1,), "01020304", b"r" * 32))
        entry = wrap(person.key, person.seat, payload, b"n" * 12)
        return write_boot(Boot(n, state.salt, QUICK, {"abcd": head or heads.get(n, heads[5])}, {seat: entry}), signer).decode()

    tries = {
        "same": boot(5), "older": boot(4), "newer": boot(6), "forged": boot(7, cipher.new_signer()), "garbage": "<html>sign in</html>",
        "out": boot(7, seat="ef" * 16), "forged out": boot(7, cipher.new_signer(), "ef" * 16), "older out": boot(4, seat="ef" * 16),
        "older manifest": boot(6, head=heads[4]), "missing manifest": boot(6, head="ab" * 16),
    }
    got = modules.evaluate(
        """async ([code, first, tries, blobs]) => {
          const fetchBlob = async (name) => { if (!blobs[name]) throw new Error("404"); return window.core.fromBase64(blobs[name]); };
          const session = await window.book.openWithCode(code, first, fetchBlob);
          const out = {};
          for (const [name, text] of Object.entries(tries)) {
            const verdict = await window.book.judged(session, text, fetchBlob);
            out[name] = [verdict.what, verdict.session === session, verdict.session.n, verdict.session.out, Boolean(verdict.session.key), verdict.session.audiences.length];
          }
          return out;
        }""", [person.code, tries["same"], tries, blobs])
    untouched = [True, 5, False, True, 1]
    assert got["same"] == ["same", *untouched]
    for name in ("older", "forged", "garbage", "forged out", "older out"):
        assert got[name] == ["ignored", *untouched], name
    for name in ("older manifest", "missing manifest"):
        assert got[name] == ["later", *untouched], name
    assert got["newer"] == ["newer", False, 6, False, True, 1]
    assert got["out"] == ["out", False, 7, True, True, 0]


@pytest.mark.parametrize("counter, counts", [(2**48 - 1, True), (2**48, False), (1, True), (0, False), (-1, False)])
def test_a_counter_that_no_publish_could_reach_is_no_boot_file(counter, counts):
    """A browser counts exactly to 2^53 only; a counter near that could never be passed again."""
    signer = cipher.new_signer()
    raw = write_boot(Boot(counter, b"s" * 16, QUICK, {"abcd": "ab" * 16}, dict(dummy_seat(random.Random(1).randbytes) for _ in range(3))), signer)
    if counts:
        assert read_boot(raw).boot.counter == counter
    else:
        _never_opens(lambda: read_boot(raw))


@pytest.mark.parametrize("length, opens", [(32, True), (31, False), (16, False)])
def test_a_manifest_with_a_key_of_another_length_is_none(length, opens):
    key = audience_key(b"c" * 32)
    sealed = seal_manifest(key, Manifest(1, {}, {"01020304": b"o" * length}, ()))
    if opens:
        assert open_manifest(key, sealed).old_keys == {"01020304": b"o" * length}
    else:
        _never_opens(lambda: open_manifest(key, sealed))
