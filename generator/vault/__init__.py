"""Bytes in, sealed bytes out. Knows nothing of plays.

The format, version 1 (a published vault may be read for years, so every rule below is a contract; the browser's side is
`generator/publish/shell/core.js`, and `tests/test_vault_vectors.py` holds both to the same bytes):

- code: 16 characters of Crockford's alphabet, 80 random bits. Normalised: NFKC, lower case, spaces and dashes out,
  o -> 0, i and l -> 1.
- PBKDF2-HMAC-SHA256(code, the vault's salt, 600,000 rounds, 32 bytes) -> HKDF-SHA256 (empty salt) with info
  `secondside/1 seat id` (16 bytes) and `secondside/1 seat key` (32 bytes).
- seat: base64(nonce 12 || AES-256-GCM(seat key, nonce, payload padded with blanks to 384 bytes, AAD = `secondside/1 seat ` +
  seat id)). Dummy seats are random bytes of the same length; there are always a multiple of 16 seats.
- audience key K -> HKDF with info `secondside/1 lock`, `secondside/1 name`, `secondside/1 nonce` (32 bytes each) and
  `secondside/1 key id` (4 bytes).
- body: flag (bit 0 gzip, bit 1 manifest) || length (4 bytes, big endian) || content || zeros up to the next Padme size.
- blob: nonce || AES-256-GCM(lock key, nonce, body, AAD = name), nonce = HMAC(nonce key, body)[:12],
  name = HMAC(name key, body)[:16]. A reader checks the name against the body: whoever knows the audience key but not the
  signer's can therefore not put another content under a name that a signed boot file reaches.
- manifest: a blob with bit 1 set: which path is which blob.
- boot file: {"v": 1, "body": text, "sig": base64 of r || s}, ECDSA P-256 SHA-256 over `secondside/1 boot\n` + body.
- result: base64url(1 || result id 4 bytes || nonce 12 || AES-256-GCM(result key, nonce, content, AAD = `secondside/1 result` + id)).
"""
