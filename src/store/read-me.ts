/** The text that lies in every job folder, for whoever finds it without the program. */
export const READ_ME = `READ ME FIRST
=============
This folder is the record of one aircraft's restoration. It can be read without the program that made it.

journal.db      An SQLite 3 database (www.sqlite.org). One table, "entry", in order of "seq". Nothing in it is ever
                changed or deleted; corrections are later entries that name the earlier one.
                  body         what was recorded, as JSON text (RFC 8785): id, at, by, device, kind, data, corrects
                  digest       SHA-256 of exactly the bytes of body, in hex
                  recorded_at  when the journal accepted it
                  prev, hash   the chain: hash is the SHA-256 of the text
                               {"digest":"…","prev":"…","recordedAt":"…","seq":N,"signature":null}
                               and prev is the hash of the entry before (64 zeros for the first)
                  signature    empty: the entry is unsigned, a name was picked and not proved
                If files named journal.db-wal and journal.db-shm lie beside it, they belong to it: keep them together.
journal.head    The last acknowledged seq and hash, twice. A journal that ends earlier has lost entries.
photos/ab/cd/   Photographs as they came from the camera, named by the SHA-256 of their bytes. Files ending in
                .print.jpg and .thumb.jpg are smaller copies and can be thrown away.
sounds/ab/cd/   Voice notes as they were recorded, named in the same way.

Look at it:     sqlite3 journal.db "select seq, json_extract(body,'$.kind'), json_extract(body,'$.data') from entry"
Check a picture: sha256sum photos/ab/cd/abcd….jpg     (the answer is its name)
Check all:      witnessmark verify FOLDER

Do not edit these files. Copy the folder only while nothing records into it, or use "witnessmark backup".
`;
