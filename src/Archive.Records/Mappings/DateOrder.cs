namespace Archive.Records.Mappings;

/// <summary>What comes first in a date of three numbers that does not begin with the year.</summary>
public enum DateOrder
{
    DayFirst,
    MonthFirst,
}
