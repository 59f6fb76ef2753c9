-- Numbers that may differ only in case, spaces or leading zeros are found together; the program then looks closer.
CREATE INDEX marker_number_alike ON marker (replace(replace(lower(number), ' ', ''), '0', ''));
CREATE INDEX marker_earlier_number_alike ON marker_earlier_number (replace(replace(lower(number), ' ', ''), '0', ''));
