"""The ciphers give the published answers, here and in the browser, and both sides of the vault make and open the same bytes.

Sources: RFC 7914 section 11 (PBKDF2-HMAC-SHA256), RFC 5869 appendix A (HKDF-SHA256), the GCM specification's AES-256 cases
13-17 (McGrew and Viega) and NIST CAVS gcmEncryptExtIV256.
"""

from __future__ import annotations

import random
from base64 import b64encode

import pytest
from publish_fixture import QUICK, seated_state, shell_modules

from generator.vault import cipher
from generator.vault.blob import Blob, audience_key, open_blob, padded_size, seal
from generator.vault.boot import Boot, read_boot, write_boot
from generator.vault.codes import ALPHABET, new_code, normalised, seat_key
from generator.vault.manifest import Entry, Manifest, open_manifest, seal_manifest
from generator.vault.results import open_result, seal_result
from generator.vault.seats import (
    PAYLOAD_BYTES,
    WRAP_BYTES,
    Payload,
    decode_payload,
    encode_payload,
    seats_shown,
    unwrap,
    wrap,
)

STRETCH = [  # password, salt, rounds, length, output: RFC 7914 section 11
    ("passwd", "salt", 1, 64, "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc49ca9cccf179b645991664b39d77ef317c71b845b1e30bd509112041d3a19783"),
    ("Password", "NaCl", 80000, 64, "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56a1d425a1225833549adb841b51c9b3176a272bdebba1d078478f62b397f33c8d"),
]
DERIVE = [  # key, salt, info, length, output: RFC 5869 A.1, A.2, A.3
    ("0b" * 22, "000102030405060708090a0b0c", "f0f1f2f3f4f5f6f7f8f9", 42,
     "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865"),
    (bytes(range(0x50)).hex(), bytes(range(0x60, 0xB0)).hex(), bytes(range(0xB0, 0x100)).hex(), 82,
     "b11e398dc80327a1c8e7f78c596a49344f012eda2d4efad8a050cc4c19afa97c59045a99cac7827271cb41c65e590e09da3275600c2f09b8367793a9aca3db71"
     + "cc30c58179ec3e87c14c01d5c1f3434f1d87"),
    ("0b" * 22, "", "", 42, "8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8"),
]
_K = "feffe9928665731c6d6a8f9467308308" * 2
_P = ("d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39"
      "1aafd255")
_C = ("522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662"
      "898015ad")
_A = "feedfacedeadbeeffeedfacedeadbeefabaddad2"
LOCK = [  # key, nonce, bound, plain, sealed || tag
    ("00" * 32, "00" * 12, "", "", "530f8afbc74536b9a963b4f1c4cb738b"),  # case 13
    ("00" * 32, "00" * 12, "", "00" * 16, "cea7403d4d606b6e074ec5d3baf39d18" + "d0d1c8a799996bf0265b98b5d48ab919"),  # 14
    (_K, "cafebabefacedbaddecaf888", "", _P, _C + "b094dac5d93471bdec1a502270e3cc6c"),  # 15
    (_K, "cafebabefacedbaddecaf888", _A, _P[:-8], _C[:-8] + "76fc6ece0f4e1768cddf8853bb2d551b"),  # 16
    (_K, "cafebabefacedbad", _A, _P[:-8],  # 17: a nonce of eight bytes
     "c3762df1ca787d32ae47c13bf19844cbaf1ae14d0b976afac52ff7d79bba9de0feb582d33934a4f0954cc2363bc73f7862ac430e64abe499f47c9b1f"
     + "3a337dbf46a792c45e454913fe2ea8f2"),
    ("31bdadd96698c204aa9ce1448ea94ae1fb4a9a0b3c9d773b51bb1822666b8f22", "0d18e06c7c725ac9e362e1ce", "",  # CAVS
     "2db5168e932556f8089a0622981d017d", "fa4362189661d163fcd6a56d8bf0405a" + "d636ac1bbedd5cc3ee727dc2ab4a9489"),
    ("92e11dcdaa866f5ce790fd24501f92509aacf4cb8b1339d50c9c1240935dd08b", "ac93a1a6145299bde902f21a",
     "1e0889016f67601c8ebea4943bc23ad6", "2d71bcfa914e4ac045b2aa60955fad24", "8995ae2e6df3dbf96fac7b7137bae67feca5aa77d51d4a0a14d9c51e1da474ab"),
    ("5853c020946b35f2c58ec427152b840420c40029636adcbb027471378cfdde0f", "eec313dd07cc1b3e6b068a47",
     "1389b522c24a774181700553f0246bbabdd38d6f", "ce7458e56aef9061cb0c42ec2315565e6168f5a6249ffd31610b6d17ab64935e",
     "eadc3b8766a77ded1a58cb727eca2a9790496c298654cda78febf0da16b6903b3d49a5b32fde7eafcce90079217ffb57"),
]


@pytest.mark.parametrize("password, salt, rounds, length, output", STRETCH)
def test_stretching(password, salt, rounds, length, output):
    assert cipher.stretch(password.encode(), salt.encode(), rounds, length).hex() == output


@pytest.mark.parametrize("key, salt, info, length, output", DERIVE)
def test_deriving(key, salt, info, length, output):
    assert cipher.derive(bytes.fromhex(key), bytes.fromhex(info), length, bytes.fromhex(salt)).hex() == output


@pytest.mark.parametrize("key, nonce, bound, plain, sealed", LOCK)
def test_locking(key, nonce, bound, plain, sealed):
    k, n, b, p, s = map(bytes.fromhex, (key, nonce, bound, plain, sealed))
    assert cipher.lock(k, n, p, b) == s
    assert cipher.unlock(k, n, s, b) == p


def test_signing():
    signer = cipher.new_signer()
    public = cipher.public_point(signer)
    signature = cipher.sign(signer, b"boot")
    assert (len(public), len(signature)) == (65, 64)
    assert cipher.is_signed(public, b"boot", signature)
    assert not cipher.is_signed(public, b"booT", signature)
    assert not cipher.is_signed(cipher.public_point(cipher.new_signer()), b"boot", signature)
    assert not cipher.is_signed(public, b"boot", bytes(64)) and not cipher.is_signed(bytes(65), b"boot", signature)


def test_codes_hold_80_bits_and_forgive_slips():
    assert new_code(lambda n: b"\xff" * n) == "ZZZZ-ZZZZ-ZZZZ-ZZZZ"
    code = new_code(lambda n: bytes(range(n)))
    assert len(code.replace("-", "")) == 16 and set(code) <= {*ALPHABET, "-"}
    assert normalised(" O0il-1Zzz–ａｂｃ ") == "00111zzzabc"
    salt = b"s" * 16
    assert seat_key("0O1I-LABC-DEFG-HJKM", salt, QUICK) == seat_key("001 11abc defg hjkm", salt, QUICK)
    assert seat_key("0000-0000-0000-0000", salt, QUICK) != seat_key("0000-0000-0000-0001", salt, QUICK)


def test_padding_follows_padme():
    """Nikitin et al. 2019, section 5: cost at most 12 %, and O(log log) bits of the length leak."""
    assert [padded_size(n) for n in (0, 256, 257, 1000, 1025, 9, 65537)] == [256, 256, 272, 1024, 1088, 256, 67584]
    for n in range(257, 200_000, 97):
        assert n <= padded_size(n) <= n * 1.12
    assert len({padded_size(n) for n in range(1000, 100_000)}) < 120


def test_a_blob_is_the_same_for_the_same_content_and_hides_its_size():
    key, other = audience_key(b"k" * 32), audience_key(b"j" * 32)
    texts = [b"", b"a", b"word " * 4000, random.Random(1).randbytes(5000)]
    for text in texts:
        blob = seal(key, text)
        assert blob == seal(key, text) and open_blob(key, blob) == text
        assert blob.name != seal(other, text).name
        with pytest.raises(cipher.NotOpened):
            open_blob(other, blob)
    assert len(seal(key, b"a").data) == len(seal(key, b"b" * 200).data)


def test_a_name_must_be_the_bodys():
    """Whoever knows the audience key still cannot put another content under a name that a signed boot file reaches."""
    key = audience_key(b"k" * 32)
    real, forged = seal(key, b"the coach's page"), b"another page"
    body = b"\0" + len(forged).to_bytes(4, "big") + forged.ljust(251, b"\0")
    data = bytes(12) + cipher.lock(key.lock, bytes(12), body, bytes.fromhex(real.name))
    with pytest.raises(cipher.NotOpened, match="another body"):
        open_blob(key, Blob(real.name, data))


def test_a_seat_says_nothing_by_its_size_and_fits_the_longest_payload():
    key, point = b"k" * 32, cipher.public_point(cipher.new_signer())
    longest = Payload(True, (("ffff", key), ("eeee", key)), point, "w" * 48, (1, 2, 3, 4, 5), "01234567", key)
    shortest = Payload(False, (("ffff", key),), point, "", (), "01234567", key)
    for payload in (longest, shortest):
        raw = encode_payload(payload)
        assert len(raw) == PAYLOAD_BYTES and decode_payload(raw) == payload
        entry = wrap(key, "ab" * 16, raw, bytes(12))
        assert len(entry) == WRAP_BYTES and unwrap(key, "ab" * 16, entry) == payload
        with pytest.raises(cipher.NotOpened):
            unwrap(key, "ac" * 16, entry)
    assert [seats_shown(n) for n in (0, 1, 16, 17)] == [16, 16, 16, 32]


def test_manifest_and_result_come_back():
    key = audience_key(b"k" * 32)
    manifest = Manifest(7, {"a/ü.html": Entry("ab" * 16, "0011", "text/html", 5)}, {"0011": b"o" * 32}, (("cd" * 16, key.id),))
    blob = seal_manifest(key, manifest)
    assert open_manifest(key, blob) == manifest
    with pytest.raises(cipher.NotOpened):
        open_blob(key, blob)
    line = seal_result("01020304", b"r" * 32, b"q1:3", bytes(12))
    assert open_result(f" {line[:20]}\n{line[20:]} ", {"01020304": b"r" * 32}) == ("01020304", b"q1:3")
    assert set(line) <= set("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_")
    for keys in ({"01020304": b"x" * 32}, {"01020305": b"r" * 32}):
        with pytest.raises(cipher.NotOpened):
            open_result(line, keys)


def _b64(raw: bytes) -> str:
    return b64encode(raw).decode()


@pytest.fixture(scope="module")
def core(chromium, tmp_path_factory):
    with shell_modules(chromium, tmp_path_factory.mktemp("modules")) as page:
        yield page


@pytest.mark.browser
def test_the_browser_gives_the_published_answers(core):
    stretched = core.evaluate(
        """(rows) => Promise.all(rows.map(async ([password, salt, iterations, length]) => {
          const bytes = (t) => new TextEncoder().encode(t);
          const key = await crypto.subtle.importKey("raw", bytes(password), "PBKDF2", false, ["deriveBits"]);
          return window.core.hex(new Uint8Array(await crypto.subtle.deriveBits(
            { name: "PBKDF2", hash: "SHA-256", salt: bytes(salt), iterations }, key, length * 8)));
        }))""", [list(row[:4]) for row in STRETCH])
    assert stretched == [row[4] for row in STRETCH]
    derived = core.evaluate(
        """(rows) => Promise.all(rows.map(async ([key, salt, info, length]) =>
          window.core.hex(await window.core.derive(window.core.fromHex(key), window.core.fromHex(info), length, window.core.fromHex(salt)))))""",
        [list(row[:4]) for row in DERIVE])
    assert derived == [row[4] for row in DERIVE]
    opened = core.evaluate(
        """(rows) => Promise.all(rows.map(async ([key, nonce, bound, , sealed]) => {
          const [k, iv, additionalData, s] = [key, nonce, bound, sealed].map(window.core.fromHex);
          return window.core.hex(new Uint8Array(await crypto.subtle.decrypt(
            { name: "AES-GCM", iv, additionalData }, await window.core.gcmKey(k, ["decrypt"]), s)));
        }))""", [list(row) for row in LOCK])
    assert opened == [row[3] for row in LOCK]


@pytest.mark.browser
def test_both_sides_agree_on_every_byte(core):
    state, codes, _ = seated_state()
    person, key = state.people[0], audience_key(b"k" * 32)
    found = seat_key(codes[0], state.salt, QUICK)
    point = cipher.public_point(state.signer)
    payload = Payload(False, (("abcd", b"c" * 32),), point, "Ürsel-4", (2, 3), "0a0b0c0d", b"r" * 32)
    entry = wrap(found.key, found.seat, encode_payload(payload), b"n" * 12)
    boot = write_boot(Boot(3, state.salt, QUICK, {"abcd": "ab" * 16}, {found.seat: entry}), state.signer)
    blob, packed = seal(key, "ä page".encode()), seal(key, b"long " * 999)
    shelf = seal_manifest(key, Manifest(7, {"a/ü.html": Entry("ab" * 16, key.id, "text/html", 5)}, {"00112233": b"o" * 32}))
    seen = core.evaluate(
        """async ([code, boot, contentKey, blobs, shelf, resultId]) => {
          const c = window.core;
          const read = c.readBoot(boot);
          const { seat, key } = await c.seatKey(code, read.salt, read.rounds);
          const payload = await c.openSeat(key, seat, read.seats[seat]);
          const audience = await c.audienceKey(c.fromBase64(contentKey));
          const texts = await Promise.all(blobs.map(async ([name, data]) =>
            new TextDecoder().decode(await c.openBlob(audience.keys, name, c.fromBase64(data)))));
          const manifest = await c.openManifest(audience.keys, shelf[0], c.fromBase64(shelf[1]));
          const line = await c.sealResult(resultId, await c.gcmKey(payload.resultKey, ["encrypt"]), c.bytesOf("q1:3"), new Uint8Array(12));
          const back = await c.openResult(line, [{ id: resultId, who: "w", key: c.toBase64(payload.resultKey) }]);
          return { seat, signed: await c.isSigned(read, payload.pub), who: payload.who, positions: payload.positions, n: read.n,
            audience: audience.id, texts, files: Object.fromEntries(manifest.files), old: Object.keys(manifest.oldKeys), line,
            back: new TextDecoder().decode(back.content) };
        }""",
        [f" {codes[0].lower().replace('-', ' ')} ", boot.decode(), _b64(b"k" * 32), [[b.name, _b64(b.data)] for b in (blob, packed)],
         [shelf.name, _b64(shelf.data)], "0a0b0c0d"],
    )
    assert seen["seat"] == person.seat == found.seat and seen["signed"] and seen["n"] == 3
    assert (seen["who"], seen["positions"], seen["audience"]) == ("Ürsel-4", [2, 3], key.id)
    assert seen["texts"] == ["ä page", "long " * 999]
    assert seen["files"] == {"a/ü.html": {"blob": "ab" * 16, "key": key.id, "media": "text/html", "size": 5}}
    assert seen["old"] == ["00112233"] and seen["back"] == "q1:3"
    assert open_result(seen["line"], {"0a0b0c0d": b"r" * 32}) == ("0a0b0c0d", b"q1:3")
    assert seal_result("0a0b0c0d", b"r" * 32, b"q1:3", bytes(12)) == seen["line"]
    assert read_boot(boot).is_from(point)
