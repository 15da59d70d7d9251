using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Deadlines;
using NodaTime;
using PublicHoliday;

namespace EarHelp.Conformance.Calendars;

/// <summary>
/// The bank holidays of the clinic, held against a list that others keep: the NuGet package PublicHoliday, class UKBankHoliday for England, which
/// follows the United Kingdom government's list "UK bank holidays" (https://www.gov.uk/bank-holidays).
/// </summary>
public sealed class HolidayTests
{
    static readonly Lazy<Triage.Editions.Clinic> Clinic = new(() =>
        EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain).Edition!.Clinic);

    [Theory]
    [InlineData(2026)]
    [InlineData(2027)]
    [InlineData(2028)]
    public void The_clinic_lists_every_bank_holiday_of_England_on_its_day_and_no_other(int year)
    {
        var published = new UKBankHoliday { UkCountry = UKBankHoliday.UkCountries.England }.PublicHolidays(year).Select(LocalDate.FromDateTime).Distinct().Order();

        Assert.Equal(published, Clinic.Value.Holidays.Select(h => h.Date).Where(d => d.Year == year).Order());
    }

    [Fact]
    public void The_clinic_is_open_on_no_published_bank_holiday()
    {
        var calendar = new ClinicCalendar(Clinic.Value);
        var published = new UKBankHoliday { UkCountry = UKBankHoliday.UkCountries.England };

        var open = Enumerable.Range(2026, 3).SelectMany(year => published.PublicHolidays(year)).Select(LocalDate.FromDateTime)
            .Where(day => calendar.OpenOn(day, Instant.FromUtc(2026, 1, 1, 0, 0)).Any());

        Assert.Empty(open);
    }
}
