-- SQLite does not see a bit that has flipped within a value. Each row of the state now has a checksum
-- of its values (CRC-32C, RFC 3720 appendix B.4); rows written before have none.
ALTER TABLE cup ADD COLUMN crc INTEGER;
ALTER TABLE state ADD COLUMN crc INTEGER;
